#include "parks/model/coverage.hpp"

#include <gtest/gtest.h>

#include <vector>

#include "roostward/core/parallel.hpp"

namespace roostward::parks {
namespace {

// Eight in ten ranges should hold the true figure, and stated figures sum up to the true ones; scripts/bench
// parks reports 200 parks. Here sixteen must not speak against 75 to 85 in 100 and 0.9 to 1.1.
TEST(Coverage, FiguresHoldTheTruthAsOftenAsTheySay) {
    constexpr std::size_t count = 16;
    std::vector<std::vector<Held>> flights(count), metres(count);
    core::parallel_for(count, 1, core::Threads{0}, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            const Coverage coverage = coverage_of(make_park(i + 1, 3), {core::Metres(7.0), core::Hours(0.4)});
            EXPECT_EQ(coverage.chosen.flights.size(), coverage.chosen.trees) << "each has a range";
            flights[i] = coverage.watched.flights;
            metres[i] = coverage.watched.metres;
        }
    });
    for (const auto* figures : {&flights, &metres}) {
        const Calibration c = calibration_of(*figures);
        EXPECT_GE(c.held + c.held_error, 0.75);
        EXPECT_LE(c.held - c.held_error, 0.85);
    }
    const Calibration c = calibration_of(flights);
    EXPECT_GE(c.ratio + c.ratio_error, 0.9);
    EXPECT_LE(c.ratio - c.ratio_error, 1.1);
}

}  // namespace
}  // namespace roostward::parks
