#include "roostward/evenings/known_trees.hpp"

#include <gtest/gtest.h>

namespace roostward::evenings {
namespace {

using core::Hours;
using core::Metres;

trees::Inventory inventory_of(std::size_t trees) {
    trees::Inventory inventory;
    for (std::size_t i = 0; i < trees; ++i) {
        inventory.rows.emplace_back();
        inventory.rows.back().stem = {100.0 * static_cast<double>(i), 0.0};
    }
    return inventory;
}

TEST(UnwatchedTrees, AreThoseThatCouldHoldABox) {
    std::vector<trees::Verdict> verdicts(3);
    verdicts[0].state = trees::State::ruled_out;
    verdicts[1].state = trees::State::settle_first;
    trees::Inventory inventory = inventory_of(3);
    inventory.rows[1].crown_radius = Metres(4);
    const KnownTrees known = unwatched_trees(verdicts, inventory, {});
    ASSERT_EQ(known.trees.size(), 2U);
    EXPECT_EQ(known.trees[0].tree, 1U);
    EXPECT_EQ(known.trees[0].crown_radius, Metres(4));
    EXPECT_EQ(known.trees[1].crown_radius, trees::Settings{}.unknown_crown_radius);
    EXPECT_FALSE(known.trees[0].passes);
    EXPECT_EQ(known.trees[1].stem, inventory.rows[2].stem);
}

// A pass of 80 m on a piece of 40 m: two metres for each, 2/(2√π · 7) per m² on its course.
TEST(KnownTrees, AreAsSureAsHoursAndEveningsMakeThem) {
    std::vector<siting::Candidate> candidates(4);
    const double one_pass = 2.0 / (2.0 * std::sqrt(std::acos(-1.0)) * 7.0);
    for (std::size_t i = 0; i < 2; ++i) {
        auto& activity = candidates[i].activity;
        activity.watched = true;
        activity.watch_hours = Hours(2);
        activity.smoothed = Hours(1.6);
        activity.flight_density = 12.0 * one_pass;
        activity.evenings_watched = i == 0 ? 1 : 4;
    }
    candidates[1].site = 1;
    candidates[2].verdict.state = trees::State::not_watched;
    candidates[3].verdict.state = trees::State::ruled_out;
    survey::Survey survey;
    const core::Evening evening{std::chrono::year(2031) / 6 / 1};
    survey.evenings = {evening};
    survey::Watch watch;
    watch.path = {{0, 0}};
    watch.start = std::chrono::sys_days(evening.date) + std::chrono::hours(20);
    watch.end = watch.start + std::chrono::minutes(30);
    watch.evening = evening;
    watch.range = Metres(40);
    survey::Watch later = watch;
    later.start += std::chrono::hours(1);
    later.end += std::chrono::hours(1);
    survey.watches = {watch, later};
    survey.watch_evening = {0, 0};
    survey::Flight flight;
    flight.path = {{0, -20}, {0, 20}};
    flight.length = Metres(80);
    survey.flights = {flight};

    const KnownTrees known = known_trees(candidates, inventory_of(4), {}, survey, {Metres(7), Hours(0.4)},
                                         6.0 * one_pass, core::Threads{1});
    ASSERT_EQ(known.trees.size(), 3U);
    EXPECT_NEAR(known.trees[0].passes->mean(), 12.0, 1e-9);
    EXPECT_NEAR(known.trees[0].passes->variance(), 12.0 / 2.0 + 0.36 * 144.0, 1e-9);
    EXPECT_NEAR(known.trees[1].passes->variance(), 12.0 / 2.0 + 0.36 * 144.0 / 4.0, 1e-9);
    EXPECT_TRUE(known.trees[1].chosen);
    EXPECT_NEAR(known.trees[2].passes->mean(), 3.0, 1e-9) << "half of the mean, where nothing is foretold";
    EXPECT_GT(known.trees[2].passes->variance(), 9.0);
    ASSERT_EQ(known.held.size(), 2U);
    EXPECT_EQ(known.held[1].from, Hours(1.0));
    EXPECT_EQ(known.held[1].to, Hours(1.5));
}

}  // namespace
}  // namespace roostward::evenings
