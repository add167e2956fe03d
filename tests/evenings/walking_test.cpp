#include "walking.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "evenings/meadow.hpp"

namespace roostward::evenings {
namespace {

using core::Metres;
using core::PlanePoint;

/// Ways between two places, both ways the same.
double way(const Meadow& meadow, PlanePoint a, PlanePoint b) {
    const std::vector<Place> places{{a, {}}, {b, {}}};
    const Ground ground = meadow.ground();
    const Walking walking(ground, places, Metres(500.0), core::Threads{1});
    const double there = walking.way(0, 1).value(), back = walking.way(1, 0).value();
    EXPECT_TRUE(there == back || std::abs(there - back) < 1e-6) << there << " and " << back;
    return there;
}

TEST(Walking, IsTheStraightLineAndABitWhereNothingIsInTheWay) {
    EXPECT_DOUBLE_EQ(way({}, {0, 0}, {200, 0}), 260.0);
    EXPECT_TRUE(std::isinf(way({}, {0, 0}, {400, 0}))) << "longer than is looked for";
}

TEST(Walking, OpenGroundIsAboutTheSameWithSomethingFarOff) {
    Meadow meadow;
    meadow.keep_out = {Meadow::square({0, -95}, 5)};
    for (const PlanePoint to : {PlanePoint{200, 0}, {140, 140}, {180, 80}, {3, 200}})
        EXPECT_NEAR(way(meadow, {0, 0}, to), 1.3 * core::distance({0, 0}, to).value(), 24.0);
}

TEST(Walking, GoesRoundWhereItMustKeepOut) {
    Meadow meadow;
    meadow.keep_out = {Meadow::square({50, -50}, 100)};
    // By the corners: from (0, 0) to (50, ±50), along 100 m, and back in.
    const double round = 2.0 * std::sqrt(2.0) * 50.0 + 100.0;
    EXPECT_NEAR(way(meadow, {0, 0}, {200, 0}), 1.3 * round, 40.0);
}

TEST(Walking, CrossesWaterOnAPathAlone) {
    Meadow meadow;
    meadow.water = {"water.geojson", {{{}, {{{100, -2000}, {103, 2000}}}, {}}}};
    EXPECT_TRUE(std::isinf(way(meadow, {50, 0}, {150, 0}))) << "a river without a bridge";
    meadow.paths = {{{0, 100}, {200, 100}}};
    const double over = way(meadow, {50, 0}, {150, 0});
    EXPECT_GT(over, 200.0) << "to the bridge and back";
    EXPECT_LT(over, 1.35 * 300.0);
}

TEST(Walking, StartsOnItsOwnBank) {
    Meadow meadow;
    meadow.water = {"water.geojson", {{{}, {{{100, -2000}, {100, 2000}}}, {}}}};
    for (double x = 105.0; x < 110.0; x += 0.5) {
        EXPECT_TRUE(std::isinf(way(meadow, {50, 0}, {x, 3}))) << x;
        EXPECT_LT(way(meadow, {200, 0}, {x, 3}), 150.0) << x;
    }
}

TEST(Walking, ChoosesAPathWhereThatIsLessFar) {
    Meadow meadow;
    meadow.paths = {{{0, 0}, {300, 0}}};
    EXPECT_NEAR(way(meadow, {0, 0}, {300, 0}), 300.0, 5.0);
    EXPECT_GT(way(meadow, {0, 60}, {300, 60}), 1.15 * 300.0);
}

TEST(Walking, PlacesBesideEachOtherAreAsFarAsTheyAre) {
    Meadow meadow;
    meadow.paths = {{{0, 0}, {300, 0}}};
    EXPECT_DOUBLE_EQ(way(meadow, {11.0, 0.5}, {12.0, 0.5}), 1.0);
}

}  // namespace
}  // namespace roostward::evenings
