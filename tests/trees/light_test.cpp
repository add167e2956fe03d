#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "roostward/trees/neighbours.hpp"
#include "world.hpp"

namespace roostward::trees {
namespace {

Lamp lamp_at(PlanePoint place, std::optional<Lux> lux_at_10m, Metres height) {
    Lamp lamp;
    lamp.position = place;
    lamp.lux_at_10m = lux_at_10m;
    lamp.height = height;
    return lamp;
}

// Photometric law (inverse square and cosine), worked example from lighting practice, value from memory: a
// lamp of 5000 cd to every side, 8 m up, seen from the ground 25 m away: 6.9116 lx on an upright face; the
// same lamp gives 0.1 lx as far off as 223.6 m. 1000 cd at 10 m, straight on: 10 lx.
TEST(Light, FollowsTheInverseSquareAndTheCosineOfTheFace) {
    const Lamp lamp = lamp_at({0, 0}, Lux(50), Metres(8));
    EXPECT_NEAR(light_from(lamp, Metres(25), Metres(0))->value(), 6.9116, 5e-5);
    EXPECT_NEAR(reach_of(lamp, Lux(0.1)).value(), 223.6, 0.05);
    EXPECT_NEAR(light_from(lamp_at({0, 0}, Lux(10), Metres(4)), Metres(10), Metres(4))->value(), 10.0, 1e-12);
}

TEST(Light, OfLumensFallsBelowTheLampOnly) {
    Lamp lamp;
    lamp.lumens = Lumens(2.0 * std::numbers::pi * 100.0);  // 100 cd below it
    lamp.height = Metres(5);
    EXPECT_DOUBLE_EQ(light_from(lamp, Metres(10), Metres(5))->value(), 1.0);
    EXPECT_EQ(light_from(lamp, Metres(10), Metres(5.01)), Lux(0));
    lamp.height.reset();
    EXPECT_DOUBLE_EQ(light_from(lamp, Metres(10), Metres(9))->value(), 1.0) << "as high as the face";
    lamp.lumens.reset();
    EXPECT_EQ(light_from(lamp, Metres(10), Metres(5)), std::nullopt);
}

/// The tree at the origin has a crown of 4 m and an entrance at 4.5 m.
World lit_by(const Lamp& lamp) {
    World world;
    world.around.lamps.file = "lamps.csv";
    world.around.lamps.rows = {lamp};
    return world;
}

Verdict verdict_with(double away, std::optional<double> lux_at_tree) {
    std::optional<Lux> lux_at_10m;
    if (lux_at_tree) lux_at_10m = Lux(*lux_at_tree * away * away / 100.0);
    return lit_by(lamp_at({0, away}, lux_at_10m, Metres(4.5))).verdict();
}

// 25 m, 50 m and 0.1 lx: Azam et al. 2018 (Applied Ecology), as far as bats kept from street lamps and the
// light they kept from; 1 lx: common practice, no source. All inclusive.
TEST(Light, RulesAtTheirEdges) {
    EXPECT_EQ(verdict_with(29.0, {}).state, State::ruled_out);
    EXPECT_EQ(verdict_with(29.001, {}).state, State::settle_first);
    EXPECT_EQ(verdict_with(54.0, {}).state, State::settle_first);
    EXPECT_EQ(verdict_with(54.001, {}).state, State::can_be_chosen);
    EXPECT_EQ(verdict_with(60.0, 1.0 + 1e-9).state, State::ruled_out);
    EXPECT_EQ(verdict_with(60.0, 0.999).state, State::settle_first);
    EXPECT_EQ(verdict_with(60.0, 0.1 + 1e-9).state, State::settle_first);
    EXPECT_EQ(verdict_with(60.0, 0.0999).state, State::can_be_chosen);
}

TEST(Light, SaysWhatToDo) {
    const Verdict near = verdict_with(29.0, {});
    ASSERT_EQ(near.reasons.size(), 1U);
    EXPECT_EQ(near.reasons[0].sentence,
              "A lamp stands 25 m from the crown's edge; more than 25 m are needed.");
    const Verdict dim = verdict_with(60.0, 0.2);
    ASSERT_EQ(dim.reasons.size(), 1U);
    EXPECT_EQ(dim.reasons[0].who, "surveyor");
    EXPECT_EQ(
        dim.reasons[0].sentence,
        "Up to 0.2 lx of lamp light fall on an entrance at 4.5 m; less than 0.1 lx are needed. Visit after "
        "dark: if a lamp throws your shadow on the trunk, do not hang here.");
}

TEST(Light, OfSeveralLampsAddsUpAndOfOneWithoutNumbersIsUnknown) {
    World world = lit_by(lamp_at({0, 60}, Lux(0.08 * 36), Metres(4.5)));
    EXPECT_NEAR(world.verdict().light->lux->value(), 0.08, 1e-12);
    world.around.lamps.rows.push_back(lamp_at({70, 0}, Lux(0.08 * 49), Metres(4.5)));
    EXPECT_NEAR(world.verdict().light->lux->value(), 0.16, 1e-12);
    EXPECT_EQ(world.verdict().light->lamp, Metres(60));
    EXPECT_EQ(world.verdict().state, State::settle_first);
    world.around.lamps.rows.push_back(lamp_at({0, -55}, {}, Metres(4.5)));
    EXPECT_EQ(world.verdict().light->lux, std::nullopt);
    EXPECT_FALSE(World().verdict().light) << "no lamps were given";
}

/// 1 m cells for 80 m about the tree, open but for a row of crowns so deep across the way north.
core::Raster row_of_crowns(double from_northing, double depth, float height) {
    core::Raster raster;
    raster.grid = {{-80, 80}, Metres(1), 160, 160};
    raster.values.assign(raster.grid.size(), 0.0F);
    raster.known.assign(raster.grid.size(), 1);
    for (std::size_t i = 0; i < raster.values.size(); ++i) {
        const double northing = raster.grid.centre({i / 160, 0}).northing;
        if (northing > from_northing && northing < from_northing + depth) raster.values[i] = height;
    }
    return raster;
}

// A lamp 60 m to the north, as high as the entrance (4.5 m), gives 0.5 lx; crowns of 12 m begin at 4 m, of 15
// m at 5 m. A tenth comes through: from memory. Two metres of crowns shade: common practice, no source.
TEST(Light, IsShadedByCrownsBetween) {
    World world = lit_by(lamp_at({0, 60}, Lux(0.5 * 36), Metres(4.5)));
    const auto lux = [&](const core::Raster& canopy) {
        world.around.canopy_height = canopy;
        return world.verdict().light->lux->value();
    };
    EXPECT_NEAR(lux(row_of_crowns(30, 2, 12)), 0.05, 1e-9);
    EXPECT_NEAR(lux(row_of_crowns(30, 1, 12)), 0.5, 1e-9) << "one metre of crowns";
    EXPECT_NEAR(lux(row_of_crowns(30, 9, 15)), 0.5, 1e-9) << "the light passes under them";
    EXPECT_NEAR(lux(row_of_crowns(30, 9, 4)), 0.5, 1e-9) << "and over shrubs";
    EXPECT_NEAR(lux(row_of_crowns(0, 4, 12)), 0.5, 1e-9) << "the tree's own crown, 4 m wide";
    EXPECT_NEAR(lux(row_of_crowns(61, 9, 12)), 0.5, 1e-9) << "behind the lamp";
    world.tree().stem = {0, 10};
    world.around.lamps.rows[0].position = {0, 70};
    world.around.lamps.rows[0].lux_at_10m = Lux(3 * 36);
    world.around.canopy_height = row_of_crowns(30, 5, 12);
    EXPECT_EQ(
        world.verdict().reasons.back().sentence,
        "Up to 0.3 lx of lamp light fall on an entrance at 4.5 m (crowns before a lamp are taken to let 10 % "
        "through); less than 0.1 lx are needed. Visit after dark: if a lamp throws your shadow on the trunk, "
        "do not hang here.");
    world.settings.light.through_crowns = 1.0;
    EXPECT_EQ(world.verdict().state, State::ruled_out) << "3 lx";
}

TEST(KnownRoosts, AreSettledFirst) {
    World world;
    world.around.known_roosts.file = "roosts.csv";
    world.around.known_roosts.rows = {{3, {0, 15}, date(2026, 6, 9), 4.0, ""}};
    const Verdict verdict = world.verdict();
    ASSERT_EQ(verdict.reasons.size(), 1U);
    EXPECT_EQ(verdict.reasons[0].sentence,
              "Animals may already live here. Do not climb, fix or prune: a known roost (roosts.csv), 4 "
              "animals on 2026-06-09, 15 m away.");
    world.around.known_roosts.rows[0].position = {0, 15.01};
    EXPECT_TRUE(world.verdict().reasons.empty());
}

}  // namespace
}  // namespace roostward::trees
