#include <gtest/gtest.h>

#include "parks/model/lines.hpp"

// scripts/bench parks reports 200 parks; here a few keep the result from slipping.
namespace roostward::parks {
namespace {

const activity::Bandwidth bandwidth{core::Metres(7.0), core::Hours(0.4)};

// The design's bars: of the true routes' length inside ground watched for 1 h and more and used by 8 flights
// an hour and more, 80 % has a line within 10 m; 80 % of the lines' length lies within 10 m of a true route.
TEST(FlightLinesOfParks, FollowTheTrueRoutes) {
    LineTally tally;
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        const Park park = make_park(seed);
        tally += tally_of(park, lines_of(park, bandwidth));
    }
    EXPECT_GE(tally.found_length, 0.8 * tally.true_length);
    EXPECT_GE(tally.right_length, 0.8 * tally.line_length);
    EXPECT_GT(tally.line_length, 0.5 * tally.true_length);
}

// The design's bar: a park of constant rate gives no line in at least 18 of 20 seeds.
TEST(FlightLinesOfParks, AreHardlyFoundWhereThereIsNoRoute) {
    std::size_t without = 0;
    for (std::uint64_t seed = 1; seed <= 20; ++seed)
        without += lines_of(constant_rate_park(seed), bandwidth).empty() ? 1 : 0;
    EXPECT_GE(without, 18U);
}

}  // namespace
}  // namespace roostward::parks
