#include "roostward/evenings/sight.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace roostward::evenings {
namespace {

using core::Degrees;
using core::Metres;

// Common practice: 40 m to −3°, linear to 15 m at −9°, 5 m at −12°.
TEST(SightByEye, FadesAsItDarkens) {
    EXPECT_EQ(sight_by_eye(Degrees(10)), Metres(40));
    EXPECT_EQ(sight_by_eye(Degrees(-3)), Metres(40));
    EXPECT_NEAR(sight_by_eye(Degrees(-6)).value(), 27.5, 1e-12);
    EXPECT_EQ(sight_by_eye(Degrees(-9)), Metres(15));
    EXPECT_NEAR(sight_by_eye(Degrees(-10.5)).value(), 10.0, 1e-12);
    EXPECT_EQ(sight_by_eye(Degrees(-12)), Metres(5));
    EXPECT_EQ(sight_by_eye(Degrees(-40)), Metres(5));
}

TEST(FarthestSeen, OfEyesIsAShareOfWhatTheySeeInTheLight) {
    Team team;
    team.seen_by = "eye";
    team.farthest_seen = Metres(60);
    EXPECT_NEAR(farthest_seen(team, Degrees(-9)).value(), 60.0 * 15.0 / 40.0, 1e-12);
    team.seen_by = "thermal";
    EXPECT_EQ(farthest_seen(team, Degrees(-9)), Metres(60));
    team.seen_by = "ear";
    EXPECT_EQ(farthest_seen(team, Degrees(-12)), Metres(60));
}

/// 60 m east, 20 m north, cells of 1 m.
core::Raster flat(float height) {
    core::Raster raster;
    raster.grid = {{0, 20}, Metres(1), 20, 60};
    raster.values.assign(raster.grid.size(), height);
    raster.known.assign(raster.grid.size(), 1);
    return raster;
}

/// From one easting to another, all the way from north to south.
void raise(core::Raster& raster, std::size_t from, std::size_t to, float height) {
    for (std::size_t row = 0; row < raster.grid.rows; ++row)
        for (std::size_t column = from; column < to; ++column)
            raster.values[raster.grid.index({row, column})] = height;
}

constexpr core::PlanePoint eye{5.5, 10.5}, stem{45.5, 10.5};

TEST(ShareThrough, AWallOfCrownsTakesATenthOfAnEForEachMetre) {
    core::Raster canopy = flat(0);
    raise(canopy, 20, 30, 6);  // the line is 2.8 to 3.7 m up there, crowns reach from 2 to 6 m
    EXPECT_NEAR(share_through(canopy, {}, eye, stem, Metres(0)), std::exp(-1.0), 1e-9);
    EXPECT_EQ(share_through({}, {}, eye, stem, Metres(0)), 1.0);
}

TEST(ShareThrough, LowBushesAndTallClearStemsHideNothing) {
    core::Raster canopy = flat(0);
    raise(canopy, 20, 30, 2.5F);
    EXPECT_EQ(share_through(canopy, {}, eye, stem, Metres(0)), 1.0);
    raise(canopy, 20, 30, 18);
    EXPECT_EQ(share_through(canopy, {}, eye, stem, Metres(0)), 1.0);
}

TEST(ShareThrough, TheTreesOwnCrownHidesNothing) {
    core::Raster canopy = flat(0);
    raise(canopy, 40, 51, 9);
    EXPECT_NEAR(share_through(canopy, {}, eye, stem, Metres(2)), std::exp(-0.35), 1e-9);
    EXPECT_EQ(share_through(canopy, {}, eye, stem, Metres(6)), 1.0);
}

TEST(ShareThrough, GroundThatRisesBetweenHidesAll) {
    const core::Raster canopy = flat(0);
    core::Raster ground = flat(100);
    EXPECT_EQ(share_through(canopy, ground, eye, stem, Metres(0)), 1.0);
    raise(ground, 20, 30, 104);
    EXPECT_EQ(share_through(canopy, ground, eye, stem, Metres(0)), 0.0);
}

TEST(ShareThrough, ALineUpASlopeSeesTheCrownsOfTheSlope) {
    core::Raster canopy = flat(0);
    raise(canopy, 20, 30, 6);
    core::Raster ground = flat(0);
    for (std::size_t column = 0; column < 60; ++column)
        raise(ground, column, column + 1, static_cast<float>(column));
    EXPECT_NEAR(share_through(canopy, ground, eye, stem, Metres(0)), std::exp(-1.0), 1e-6);
}

}  // namespace
}  // namespace roostward::evenings
