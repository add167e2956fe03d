#include "roostward/siting/fitness.hpp"

#include <gtest/gtest.h>

#include "roostward/siting/candidates.hpp"
#include "roostward/siting/settings.hpp"

namespace roostward::siting {
namespace {

using core::Metres;

std::optional<Sourced<Curve>> curve(std::vector<Curve::Point> points) {
    return Sourced<Curve>{{std::move(points)}, {}};
}

TEST(Curves, AreStraightBetweenTheirPointsAndLevelBeyond) {
    const Curve hump{{{2, 0.2}, {4, 1.0}, {8, 0.0}}};
    EXPECT_DOUBLE_EQ(hump.at(0), 0.2);
    EXPECT_DOUBLE_EQ(hump.at(2), 0.2);
    EXPECT_DOUBLE_EQ(hump.at(3), 0.6);
    EXPECT_DOUBLE_EQ(hump.at(4), 1.0);
    EXPECT_DOUBLE_EQ(hump.at(7), 0.25);
    EXPECT_DOUBLE_EQ(hump.at(9), 0.0);
}

struct Wood {
    Settings settings;
    std::vector<Candidate> trees{2};

    Wood() {
        settings.profile.utilities.approach = curve({{0, 0}, {4, 1}});
        settings.profile.utilities.road = curve({{0, 0}, {100, 1}});
        for (Candidate& tree : trees) {
            tree.approach_clear = Metres(4);
            tree.road_distance = Metres(100);
            tree.activity.watched = true;
            tree.activity.flight_density = 1.0;
            tree.activity.evenings_watched = tree.activity.evenings_used = 3;
        }
    }
    core::Findings measure() { return measure_fitness(trees, settings); }
};

// By hand: approach weighs 2 and quiet 1, so (2·0.25 + 1·0.5)/3 = 1/3, and 0.4 of the score hang on it.
TEST(Fitness, IsTheWeightedMeanOfItsParts) {
    Wood wood;
    wood.trees[1].approach_clear = Metres(1);
    wood.trees[1].road_distance = Metres(50);
    EXPECT_TRUE(wood.measure().empty()) << "the profile has no curve for sun and light";
    EXPECT_DOUBLE_EQ(wood.trees[0].kept.middle, 1.0) << "the best place leaves all";
    EXPECT_DOUBLE_EQ(wood.trees[1].fitness->middle, 1.0 / 3.0);
    EXPECT_DOUBLE_EQ(wood.trees[1].kept.middle, 1.0 - 0.4 * (2.0 / 3.0));
    EXPECT_DOUBLE_EQ(wood.trees[1].fitness->parts[0].takes(), 2.0 / 3.0 * 0.75);
    EXPECT_EQ(wood.trees[1].fitness->parts[1].takes(), 0.0) << "takes no part";
    EXPECT_DOUBLE_EQ(wood.trees[1].fitness->parts[3].takes(), 1.0 / 3.0 * 0.5);
}

TEST(Fitness, OfAValueThatIsMissingIsARangeWithItsMiddle) {
    Wood wood;
    wood.trees[1].approach_clear.reset();
    EXPECT_TRUE(wood.measure().empty());
    const Fitness& fitness = *wood.trees[1].fitness;
    EXPECT_DOUBLE_EQ(fitness.low, 1.0 / 3.0);
    EXPECT_DOUBLE_EQ(fitness.middle, 2.0 / 3.0);
    EXPECT_DOUBLE_EQ(fitness.high, 1.0);
}

TEST(Fitness, LeavesOutWhatNobodyMeasuredAndSaysSo) {
    Wood wood;
    for (Candidate& tree : wood.trees)
        tree.road_distance.reset();
    wood.trees[0].approach_clear = Metres(2);
    const core::Findings findings = wood.measure();
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_EQ(findings[0].value, "quiet");
    EXPECT_NE(findings[0].sentence.find("give roads under [inputs]"), std::string::npos)
        << findings[0].sentence;
    EXPECT_DOUBLE_EQ(wood.trees[0].fitness->middle, 0.5) << "by the approach alone";
    wood.settings.weights.quiet = 0.0;
    EXPECT_TRUE(wood.measure().empty()) << "left out on purpose";
    wood.settings.weights.approach = 0.0;
    Wood nothing = wood;
    nothing.trees = std::vector<Candidate>(1);
    EXPECT_TRUE(nothing.measure().empty());
    EXPECT_FALSE(nothing.trees[0].fitness);
    EXPECT_EQ(nothing.trees[0].kept.middle, 1.0);
}

// 0.1 lx is half as good as none; where lamps have no numbers, distance speaks; where no lamp is near, dark.
TEST(Fitness, TakesDistanceWhereLampsHaveNoNumbers) {
    Wood wood;
    wood.settings.weights.approach = wood.settings.weights.quiet = 0.0;
    wood.settings.profile.utilities.lux = curve({{0, 1}, {0.1, 0.5}, {1, 0}});
    wood.settings.profile.utilities.lamp = curve({{25, 0}, {50, 0.5}, {100, 1}});
    wood.trees[0].verdict.light = trees::Light{Metres(30), trees::Lux(0.05)};
    wood.trees[1].verdict.light = trees::Light{Metres(75), {}};
    EXPECT_TRUE(wood.measure().empty());
    EXPECT_DOUBLE_EQ(wood.trees[0].fitness->middle, 0.75);
    EXPECT_DOUBLE_EQ(wood.trees[1].fitness->middle, 0.75);
}

TEST(Fitness, GoesByTheClimate) {
    Wood wood;
    wood.settings.weights.approach = wood.settings.weights.quiet = 0.0;
    wood.settings.profile.utilities.sun = curve({{0, 0}, {8, 1}});
    wood.settings.profile.utilities.sun_hot = curve({{0, 1}, {8, 0}});
    for (Candidate& tree : wood.trees)
        tree.sun = sun::FaceSun{core::Hours(2), core::Hours(1), core::Hours(0)};
    EXPECT_TRUE(wood.measure().empty());
    EXPECT_DOUBLE_EQ(wood.trees[0].fitness->middle, 0.25);
    wood.settings.climate.hottest_month = core::Celsius(31);
    EXPECT_TRUE(wood.measure().empty());
    EXPECT_DOUBLE_EQ(wood.trees[0].fitness->middle, 0.75);
}

TEST(Fitness, TakesAwayFromTheEvidenceAndNeverAdds) {
    Wood wood;
    wood.trees[1].approach_clear = Metres(0);
    trees::Inventory inventory;
    inventory.rows.resize(2);
    EXPECT_TRUE(wood.measure().empty());
    score_and_rank(wood.trees, inventory);
    EXPECT_DOUBLE_EQ(wood.trees[0].score, wood.trees[0].evidence);
    EXPECT_NEAR(wood.trees[1].score, wood.trees[1].evidence * (1.0 - 0.4 * 2.0 / 3.0), 1e-6);
    EXPECT_EQ(wood.trees[0].rank, 1U);
    wood.settings.weights.fitness_share = 0.0;
    EXPECT_TRUE(wood.measure().empty());
    score_and_rank(wood.trees, inventory);
    EXPECT_EQ(wood.trees[1].score, wood.trees[1].evidence) << "only flight counts";
}

}  // namespace
}  // namespace roostward::siting
