#include "roostward/siting/ways_in.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace roostward::siting {
namespace {

using core::Degrees;
using core::Metres;

/// Bare ground of 1 m cells for 100 m about the origin, with blocks of canopy on it.
struct Ground {
    core::Raster canopy;

    Ground() {
        canopy.grid = {{-100.0, 100.0}, Metres(1.0), 200, 200};
        canopy.values.assign(canopy.grid.size(), 0.0F);
        canopy.known.assign(canopy.grid.size(), 1);
    }
    void fill(core::Box box, float height) {
        each(box, [&](std::size_t i) { canopy.values[i] = height; });
    }
    void forget(core::Box box) {
        each(box, [&](std::size_t i) { canopy.known[i] = 0; });
    }

 private:
    template <class Do>
    void each(core::Box box, Do act) {
        for (std::size_t row = 0; row < canopy.grid.rows; ++row)
            for (std::size_t column = 0; column < canopy.grid.columns; ++column)
                if (box.holds(canopy.grid.centre({row, column}))) act(canopy.grid.index({row, column}));
    }
};

/// As in the north, for boxes that like to face south.
Hanging hanging() {
    return {{Metres(4.5), {Degrees(180), Degrees(180)}, Metres(3), 1, {}},
            Degrees(50),
            Degrees(0),
            Metres(6),
            Metres(50)};
}

trees::Surroundings under(const Ground& ground) {
    trees::Surroundings around;
    around.canopy_height = ground.canopy;
    return around;
}

/// A tree at (0.5, 0.5) with a crown of 3 m and a flight line 10 m to the south-east.
Candidate measured(const trees::Surroundings& around, const Hanging& boxes = hanging()) {
    trees::Inventory inventory;
    inventory.rows.emplace_back();
    inventory.rows[0].stem = {0.5, 0.5};
    inventory.rows[0].crown_radius = Metres(3);
    std::vector<Candidate> candidates(1);
    candidates[0].flight_line = LineOffset{0, Metres(10), Degrees(135)};
    measure_distances(candidates, inventory, around, {}, core::Threads{1});
    measure_ways_in(candidates, inventory, around, boxes, core::Threads{1});
    return candidates[0];
}

Candidate measured(const Ground& ground) {
    return measured(under(ground));
}

Degrees facing(const Candidate& candidate) {
    return candidate.facings.value().boxes.front();
}

TEST(Distances, ToWhatABoxKeepsAwayFromAreFromTheCrownsEdge) {
    trees::Surroundings around;
    around.avoid.resize(3);
    around.avoid[0].shapes = {{{}, {{{12.5, -100}, {12.5, 100}}}, {}}};
    around.avoid[1].shapes = {{{{2.5, 0.5}}, {}, {}}};
    const Candidate tree = measured(around);
    ASSERT_EQ(tree.avoid_distances.size(), 3U);
    EXPECT_NEAR(tree.avoid_distances[0]->value(), 12.0 - 3.0, 1e-9);
    EXPECT_EQ(tree.avoid_distances[1], Metres(0)) << "under the crown";
    EXPECT_FALSE(tree.avoid_distances[2]) << "there is nothing in it";
}

TEST(WaysIn, AreFreeUpToTheFirstCanopyAboveTheEntrance) {
    Ground ground;
    EXPECT_EQ(measured(ground).approach_clear, Metres(20)) << "nothing within what is looked at";
    ground.fill({{8, -100}, {9, 100}},
                12.0F);  // along the east: 7.5 m off, seen at 105° where the wedge begins
    EXPECT_NEAR(measured(ground).approach_clear->value(), 7.5 / std::sin(105.0 * std::numbers::pi / 180.0),
                1e-4);
    ground.fill({{-9, -1}, {-8, 2}}, 12.0F);
    EXPECT_NEAR(measured(ground).approach_clear->value(), 7.5 / std::sin(105.0 * std::numbers::pi / 180.0),
                1e-4)
        << "behind the box";
}

TEST(WaysIn, AreUnknownWhereTheModelHasAHole) {
    Ground ground;
    ground.forget({{4, -6}, {7, -3}});
    EXPECT_FALSE(measured(ground).approach_clear);
    EXPECT_FALSE(measured(ground).sun) << "the hole lies before the face too";
}

// The mean of the sun's hours on an open south face lies between those of equinox (12 h) and of midwinter (8
// h); a wall along the south, 45° high, takes all of midwinter's: the noon sun stands 16.6° high then.
TEST(WaysIn, AWallTakesTheWinterSun) {
    Ground ground;
    const auto open = measured(ground).sun;
    ASSERT_TRUE(open);
    EXPECT_GT(open->winter_half.value(), 8.0);
    EXPECT_LT(open->winter_half.value(), 12.0);
    ground.fill({{-60, -8}, {60, -7}}, 30.0F);
    const auto shaded = measured(ground).sun;
    ASSERT_TRUE(shaded);
    EXPECT_LT(shaded->winter_half.value(), 0.2 * open->winter_half.value());
    EXPECT_GT(shaded->summer_half.value(), shaded->winter_half.value());
}

TEST(WaysIn, FaceTheSunnySideOfTheWayInThatIsFree) {
    Ground ground;
    EXPECT_EQ(facing(measured(ground)), Degrees(180));
    ground.fill({{-5, -3}, {2, -1}}, 12.0F);  // before south to south-west, 1.5 m off
    const Candidate turned = measured(ground);
    EXPECT_LT(facing(turned), Degrees(180));
    EXPECT_GE(facing(turned), Degrees(90));
}

// A wall along the east, 7.5 m off: from north it is seen 30° on, 15 m away; from NE 30° on, 15° off its
// foot.
TEST(WaysIn, TellTheOpennessOfSixteenDirections) {
    Ground ground;
    ground.fill({{8, -100}, {9, 100}}, 12.0F);
    ground.forget({{-100, -1}, {-10, 2}});
    const auto open = measured(ground).open;
    ASSERT_EQ(open.size(), 16U);
    EXPECT_NEAR(open[0]->value(), 15.0, 1e-4) << "seen at 30°";
    EXPECT_NEAR(open[2]->value(), 7.5 / std::cos(15.0 * std::numbers::pi / 180.0), 1e-4) << "at 75°";
    EXPECT_EQ(open[4], Metres(7.5)) << "east";
    EXPECT_EQ(open[5], Metres(7.5));
    EXPECT_EQ(open[8], open[0]);
    EXPECT_EQ(open[9], Metres(20)) << "SSW";
    EXPECT_FALSE(open[12]) << "a hole in the west";
    EXPECT_EQ(open[15], Metres(20));
}

TEST(WaysIn, NeedNoCanopyModelToFaceTheLine) {
    trees::Inventory inventory;
    inventory.rows.emplace_back();
    std::vector<Candidate> candidates(1);
    candidates[0].flight_line = LineOffset{0, Metres(10), Degrees(90)};
    measure_ways_in(candidates, inventory, {}, hanging(), core::Threads{1});
    EXPECT_EQ(facing(candidates[0]), Degrees(135));
    EXPECT_FALSE(candidates[0].approach_clear || candidates[0].sun);
    EXPECT_TRUE(candidates[0].open.empty());
}

TEST(WaysIn, TheOwnCrownIsLeftOut) {
    Ground ground;
    ground.fill({{-2, -2}, {3, 3}}, 12.0F);
    EXPECT_EQ(measured(ground).approach_clear, Metres(20));
}

TEST(WaysIn, TellNothingOfTreesThatAreRuledOut) {
    trees::Inventory inventory;
    inventory.rows.emplace_back();
    std::vector<Candidate> candidates(1);
    candidates[0].verdict.state = trees::State::ruled_out;
    measure_ways_in(candidates, inventory, under({}), hanging(), core::Threads{1});
    EXPECT_FALSE(candidates[0].sun || candidates[0].facings);
}

// A road ends 40 m to the south, at 175°: straight before the sunny side. Faces from 130° to 220° are out.
TEST(WaysIn, TurnFromARoadInView) {
    trees::Surroundings around;
    around.roads = {"roads.geojson", {{{}, {{{4, -39.5}, {4, -500}}}, {}}}};
    const Candidate turned = measured(around);
    EXPECT_NEAR(turned.road_distance->value(), std::hypot(3.5, 40.0), 1e-9);
    EXPECT_TRUE(turned.facings->off_the_road);
    EXPECT_EQ(facing(turned), Degrees(112.5));
    around.roads.shapes[0].lines[0] = {{4, -50}, {4, -500}};
    EXPECT_EQ(facing(measured(around)), Degrees(180)) << "over 50 m: out of view";
}

// At 50° N the July sun stands before a south face long after 14:00 (it crosses due west at about 18:00), and
// leaves a south-east face at about 14:00. A wall in the west takes it away.
TEST(WaysIn, TurnFromTheAfternoonSunUnlessItIsShaded) {
    Hanging thin = hanging();
    thin.mounting.most_hot_sun = core::Hours(2);
    const Ground open;
    const Candidate turned = measured(under(open), thin);
    EXPECT_LT(facing(turned), Degrees(180));
    EXPECT_LE(turned.sun->hot_afternoon, core::Hours(2));
    EXPECT_EQ(facing(measured(trees::Surroundings{}, thin)), facing(turned)) << "no model: an open sky";
    Ground shaded;
    shaded.fill({{-30, -60}, {-4, 60}}, 60.0F);
    shaded.fill({{-30, -60}, {0, -20}}, 60.0F);
    EXPECT_EQ(facing(measured(under(shaded), thin)), Degrees(180));
}

TEST(WaysIn, DistancesAreFromTheStem) {
    trees::Surroundings around;
    around.water = {"water.geojson",
                    {{{}, {}, {{{{10.5, -5}, {20, -5}, {20, 5}, {10.5, 5}, {10.5, -5}}, {}}}}}};
    around.boxes.file = "boxes.csv";
    trees::HungBox box;
    box.position = {0.5, 30.5};
    around.boxes.rows = {box};
    const Candidate tree = measured(around);
    EXPECT_EQ(tree.water_distance, Metres(10));
    EXPECT_EQ(tree.box_distance, Metres(30));
    EXPECT_FALSE(tree.road_distance) << "no roads were given";
    around.boxes.rows[0].status = trees::BoxStatus::fallen;
    EXPECT_FALSE(measured(around).box_distance);
}

// Entrance at 4.5 m, crown of 3 m, 3 m wanted beyond it: shrubs of 2.5 m in the south-east leave 2 m.
TEST(WaysIn, TellTheDropThatIsLeft) {
    Ground ground;
    EXPECT_EQ(measured(ground).drop_clear, Metres(4.5)) << "bare ground";
    ground.fill({{3, -6}, {6, -3}}, 2.5F);
    EXPECT_EQ(measured(ground).drop_clear, Metres(2));
    EXPECT_EQ(measured(ground).approach_clear, Metres(20)) << "they do not reach up to the entrance";
    Ground crowns;
    crowns.fill({{-20, -20}, {20, 20}}, 12.0F);
    EXPECT_FALSE(measured(crowns).drop_clear) << "what is under crowns is not seen";
    ground.forget({{4, -6}, {5, -4}});
    EXPECT_FALSE(measured(ground).drop_clear);
}

// A line 25 m off still runs beside the tree.
TEST(WaysIn, ComeFromALineThatRunsBesideTheTree) {
    trees::Inventory inventory;
    inventory.rows.resize(2);
    std::vector<Candidate> candidates(2);
    candidates[0].flight_line = LineOffset{0, Metres(25), Degrees(90)};
    candidates[1].flight_line = LineOffset{0, Metres(25.001), Degrees(90)};
    measure_ways_in(candidates, inventory, under({}), hanging(), core::Threads{1});
    EXPECT_TRUE(line_beside(candidates[0]));
    EXPECT_TRUE(candidates[0].approach_clear);
    EXPECT_EQ(facing(candidates[0]), Degrees(135));
    EXPECT_FALSE(line_beside(candidates[1]));
    EXPECT_FALSE(candidates[1].approach_clear);
    EXPECT_EQ(facing(candidates[1]), Degrees(180)) << "by the sun alone";
}

// The tree stands on flat ground 100 m above sea; to the south the ground rises at 45° from 10 m off: its
// top, 49 m higher 59 m off, hides the sun up to about 40°, and it is no way in.
TEST(WaysIn, SlopesStandInTheWayAndInTheSun) {
    Ground flat;
    trees::Surroundings around = under(flat);
    core::Raster ground = flat.canopy;
    for (std::size_t i = 0; i < ground.values.size(); ++i) {
        const double south = -ground.grid.centre({i / ground.grid.columns, 0}).northing;
        ground.values[i] = static_cast<float>(100.0 + std::max(0.0, south - 10.0));
    }
    around.ground_height = ground;
    const Candidate below = measured(around), open = measured(flat);
    ASSERT_TRUE(below.sun && open.sun);
    EXPECT_LT(below.sun->winter_half.value(), 0.5 * open.sun->winter_half.value());
    // At 165° the slope reaches 4.5 m above the ground 15 m south of the stem.
    EXPECT_NEAR(below.approach_clear->value(), 15.0 / std::cos(15.0 * std::numbers::pi / 180.0), 1.1);
    for (float& height : around.ground_height->values)
        height = 250.0F;
    const Candidate plateau = measured(around);
    EXPECT_EQ(plateau.approach_clear, open.approach_clear) << "a plateau is flat";
    EXPECT_EQ(plateau.sun->winter_half, open.sun->winter_half);
}

}  // namespace
}  // namespace roostward::siting
