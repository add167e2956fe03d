#include "roostward/geo/shape.hpp"

#include "roostward/core/random.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace roostward::geo {
namespace {

using core::Metres;
using core::PlanePoint;

Line square(double west, double south, double side) {
    return {{west, south},
            {west + side, south},
            {west + side, south + side},
            {west, south + side},
            {west, south}};
}

const Polygon ring_with_hole{square(0, 0, 10), {square(4, 4, 2)}};

TEST(Length, AddsTheParts) {
    EXPECT_EQ(length_of({{0, 0}, {3, 4}, {3, 10}}), Metres(11.0));
    EXPECT_EQ(length_of({{0, 0}}), Metres(0.0));
    EXPECT_EQ(length_of({}), Metres(0.0));
}

TEST(Area, TakesHolesAwayAndIgnoresTheTurnOfTheRing) {
    EXPECT_EQ(area_of({ring_with_hole}), core::SquareMetres(96.0));
    const Polygon clockwise{{{0, 0}, {0, 10}, {10, 10}, {10, 0}, {0, 0}}, {}};
    EXPECT_EQ(area_of({clockwise}), core::SquareMetres(100.0));
    EXPECT_EQ(area_of({}), core::SquareMetres(0.0));
    EXPECT_NEAR(area_of({{square(630084.3, 4833438.5, 0.1), {}}}).value(), 0.01, 1e-9);
}

TEST(Covers, CountsEdgesAndCornersAsGround) {
    const std::vector<Polygon> ground{ring_with_hole};
    EXPECT_TRUE(covers(ground, {1, 1}));
    EXPECT_TRUE(covers(ground, {0, 5}));
    EXPECT_TRUE(covers(ground, {10, 10}));
    EXPECT_TRUE(covers(ground, {4, 5}));  // the hole's edge
    EXPECT_FALSE(covers(ground, {5, 5}));
    EXPECT_FALSE(covers(ground, {10.001, 5}));
    EXPECT_FALSE(covers({}, {0, 0}));
}

TEST(Covers, TakesAnyOfSeveralPolygons) {
    const std::vector<Polygon> ground{{square(0, 0, 1), {}}, {square(5, 5, 1), {}}};
    EXPECT_TRUE(covers(ground, {5.5, 5.5}));
    EXPECT_FALSE(covers(ground, {3, 3}));
}

TEST(Repaired, LeavesValidPolygonsAsTheyAre) {
    const Repair repair = repaired({ring_with_hole});
    EXPECT_FALSE(repair.changed);
    ASSERT_EQ(repair.polygons.size(), 1U);
    EXPECT_EQ(repair.polygons[0].outer, ring_with_hole.outer);
    EXPECT_EQ(repair.polygons[0].holes, ring_with_hole.holes);
}

// By hand: a bow tie over a square of side 10 is two triangles of 25 m² that meet in the middle.
TEST(Repaired, SplitsABowTie) {
    const Repair repair = repaired({{{{0, 0}, {10, 10}, {10, 0}, {0, 10}, {0, 0}}, {}}});
    EXPECT_TRUE(repair.changed);
    EXPECT_NEAR(area_of(repair.polygons).value(), 50.0, 1e-9);
    EXPECT_TRUE(covers(repair.polygons, {1, 5}));
    EXPECT_FALSE(covers(repair.polygons, {5, 1}));
}

TEST(Repaired, LeavesOutWhatHasNoRoomInside) {
    const Repair repair = repaired({{{{0, 0}, {1, 1}, {0, 0}}, {}},
                                    {{}, {}},
                                    {square(0, 0, 2), {{{1, 1}}}},
                                    {{{0, 0}, {std::nan(""), 1}, {1, 1}, {0, 0}}, {}}});
    EXPECT_TRUE(repair.changed);
    EXPECT_EQ(area_of(repair.polygons), core::SquareMetres(4.0));
}

// By hand: two squares of 100 m² that share 25 m² are 175 m² of ground.
TEST(Merged, CountsSharedGroundOnce) {
    const std::vector<Polygon> ground = merged({{square(0, 0, 10), {}}, {square(5, 5, 10), {}}});
    ASSERT_EQ(ground.size(), 1U);
    EXPECT_NEAR(area_of(ground).value(), 175.0, 1e-9);
    EXPECT_EQ(ground[0].outer.front(), ground[0].outer.back());
}

TEST(Merged, KeepsHolesAndFarPieces) {
    const std::vector<Polygon> ground = merged({ring_with_hole, {square(20, 0, 1), {}}});
    EXPECT_EQ(ground.size(), 2U);
    EXPECT_NEAR(area_of(ground).value(), 97.0, 1e-9);
    EXPECT_FALSE(covers(ground, {5, 5}));
    EXPECT_TRUE(merged({}).empty());
}

TEST(WidenedHull, IsACircleAboutOnePointAndACapsuleAboutTwo) {
    const double disc = std::numbers::pi * 50.0 * 50.0;
    const std::vector<PlanePoint> one{{630000, 4833000}};
    const std::vector<PlanePoint> two{{0, 0}, {100, 0}};
    EXPECT_NEAR(area_of(widened_hull(one, Metres(50))).value(), disc, 0.001 * disc);
    EXPECT_NEAR(area_of(widened_hull(two, Metres(50))).value(), disc + 10000.0, 0.001 * disc);
    EXPECT_TRUE(widened_hull({}, Metres(50)).empty());
}

TEST(WidenedHull, HoldsEveryPointWithRoomAround) {
    core::RandomStream random(1, "hull");
    std::vector<PlanePoint> points(200);
    for (PlanePoint& point : points)
        point = {random.uniform(0, 300), random.uniform(0, 200)};
    const std::vector<Polygon> hull = widened_hull(points, Metres(20));
    ASSERT_EQ(hull.size(), 1U);
    for (const PlanePoint& point : points)
        for (int turn = 0; turn < 12; ++turn)
            EXPECT_TRUE(covers(hull, core::moved(point, core::Degrees(30.0 * turn), Metres(19.9))));
}

TEST(BoxOf, HoldsThePoints) {
    const std::vector<PlanePoint> points{{3, 9}, {-1, 4}, {2, 11}};
    const auto box = box_of(points);
    ASSERT_TRUE(box);
    EXPECT_EQ(box->south_west, (PlanePoint{-1, 4}));
    EXPECT_EQ(box->north_east, (PlanePoint{3, 11}));
    EXPECT_FALSE(box_of({}));
}

// By hand.
TEST(Crossings, AreWhereALineMeetsLinesAndOutlines) {
    const Line way{{0, 0}, {10, 0}, {10, 10}};
    const Shape road{{}, {{{2, -5}, {2, 5}}, {{8, 4}, {14, 10}}, {{20, 0}, {30, 0}}}, {}};
    EXPECT_EQ(crossings(way, std::span(&road, 1)), (std::vector<core::PlanePoint>{{2, 0}, {10, 6}}));
    const Shape square{{{5, 0}}, {}, {{{{4, -1}, {6, -1}, {6, 1}, {4, 1}, {4, -1}}, {}}}};
    EXPECT_EQ(crossings(way, std::span(&square, 1)), (std::vector<core::PlanePoint>{{6, 0}, {4, 0}}));
    EXPECT_TRUE(crossings({}, std::span(&road, 1)).empty());
    EXPECT_TRUE(crossings(way, {}).empty());
}

}  // namespace
}  // namespace roostward::geo
