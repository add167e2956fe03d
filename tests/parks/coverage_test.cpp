#include "parks/model/coverage.hpp"

#include <gtest/gtest.h>

#include <vector>

#include "parks/model/share.hpp"
#include "roostward/core/parallel.hpp"

namespace roostward::parks {
namespace {

// Eight in ten ranges should hold the true rate smoothed by K_h; scripts/bench parks reports 200 parks, which
// are to lie within 0.72 and 0.88. Here sixteen must not speak against that.
TEST(Coverage, RangesHoldTheTruthAsOftenAsTheySay) {
    constexpr std::size_t count = 16;
    std::vector<double> shares(count);
    core::parallel_for(count, 1, core::Threads{0}, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            const Coverage coverage =
                coverage_of(make_park(i + 1, 3), {core::Metres(7.0), core::Hours(0.4)}, i + 1);
            shares[i] = static_cast<double>(coverage.hold_smoothed) / static_cast<double>(coverage.ranges);
        }
    });
    const Estimate share = estimate_of(shares);
    EXPECT_GE(share.mean + share.half_width, 0.72);
    EXPECT_LE(share.mean - share.half_width, 0.88);
}

}  // namespace
}  // namespace roostward::parks
