#include "roostward/siting/candidates.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "evidence.hpp"
#include "roostward/core/random.hpp"
#include "roostward/siting/choice.hpp"

namespace roostward::siting {
namespace {

activity::PointActivity seen(double density, unsigned used, unsigned watched, double hours = 2.0) {
    activity::PointActivity activity;
    activity.flight_density = density;
    activity.watch_hours = core::Hours(hours);
    activity.evenings_used = used;
    activity.evenings_watched = watched;
    activity.watched = hours >= 0.25;
    return activity;
}

trees::Verdict verdict(trees::State state) {
    trees::Verdict verdict;
    verdict.state = state;
    return verdict;
}

struct Wood {
    trees::Inventory inventory;
    std::vector<trees::Verdict> verdicts;
    std::vector<activity::PointActivity> activity;

    void add(double easting, activity::PointActivity seen_there,
             trees::State state = trees::State::can_be_chosen) {
        trees::Tree tree;
        tree.id = "T" + std::to_string(inventory.rows.size());
        tree.stem = {easting, 0.0};
        inventory.rows.push_back(tree);
        verdicts.push_back(verdict(state));
        activity.push_back(seen_there);
    }
    [[nodiscard]] std::vector<Candidate> ranked() const {
        auto candidates = candidates_of(verdicts, activity, core::Hours(0.25), {1});
        score_and_rank(candidates, inventory);
        return candidates;
    }
};

// Worked by hand from the rule: evidence = (5·u_flight + u_evenings)/6, u_evenings = (used + 1)/(watched +
// 2).
TEST(Score, IsFiveParts_FlightAndOnePartEvenings) {
    Wood wood;
    wood.add(0.0, seen(0.08, 3, 3));
    wood.add(100.0, seen(0.04, 1, 2));
    const auto candidates = wood.ranked();
    EXPECT_DOUBLE_EQ(candidates[0].score, 0.966667);  // (5 + 4/5)/6
    EXPECT_DOUBLE_EQ(candidates[1].score, 0.5);       // (5·0.5 + 2/4)/6
}

TEST(Score, ReferenceIsTheBestTreeThatCanBeChosen) {
    Wood wood;
    wood.add(0.0, seen(0.5, 3, 3), trees::State::settle_first);
    wood.add(50.0, seen(0.1, 3, 3));
    wood.add(90.0, seen(0.2, 3, 3), trees::State::ruled_out);
    const auto candidates = wood.ranked();
    EXPECT_DOUBLE_EQ(reference_density(candidates), 0.1);
    EXPECT_EQ(candidates[0].would_rank, 1U);
    EXPECT_LE(candidates[0].score, 1.0);
    EXPECT_EQ(candidates[1].rank, 1U);
    EXPECT_FALSE(candidates[2].rank || candidates[2].would_rank);
}

// The twin scores one re-draw at a time.
TEST(Evidence, OfManyDrawsIsThatOfEachToTheBit) {
    core::RandomStream random(11, "evidence");
    std::vector<double> density, used, watched;
    for (int i = 0; i < 1001; ++i) {
        density.push_back(random.uniform(0.0, 1.2));
        watched.push_back(static_cast<double>(random.below(12)));
        used.push_back(std::floor(random.uniform() * (watched.back() + 1.0)));
    }
    const trees::Tree tree;
    for (const double reference : {0.9, 0.0}) {
        std::vector<double> scores(density.size());
        scores_of({density, used, watched}, reference, 0.87, scores);
        for (std::size_t i = 0; i < scores.size(); ++i) {
            activity::PointActivity seen;
            seen.flight_density = density[i];
            seen.evenings_used = static_cast<std::uint32_t>(used[i]);
            seen.evenings_watched = static_cast<std::uint32_t>(watched[i]);
            EXPECT_EQ(scores[i], score_of(evidence_of({tree, seen, reference}), 0.87)) << i;
        }
    }
}

TEST(Evidence, LimitsAreInclusive) {
    EXPECT_TRUE(has_enough_evidence(seen(0.125, 2, 3), 1.25));
    EXPECT_FALSE(has_enough_evidence(seen(0.1249, 2, 3), 1.25));
    EXPECT_FALSE(has_enough_evidence(seen(1.0, 1, 3), 1.0)) << "three watched, one used";
    EXPECT_TRUE(has_enough_evidence(seen(1.0, 1, 2), 1.0)) << "too few evenings to ask for two";
    EXPECT_FALSE(has_enough_evidence(seen(1.0, 0, 2), 1.0)) << "nothing flew close by: it was only heard";
    EXPECT_FALSE(has_enough_evidence(seen(1.0, 0, 0), 1.0)) << "on no evening watched for long enough";
    EXPECT_FALSE(has_enough_evidence(seen(0.0, 3, 3), 0.0)) << "nobody flew anywhere";
}

TEST(States, NotWatchedOutweighsSettlingButNotRulingOut) {
    Wood wood;
    wood.add(0.0, seen(0.1, 0, 0, 0.2));
    wood.add(9.0, seen(0.1, 0, 0, 0.2), trees::State::settle_first);
    wood.add(18.0, seen(0.1, 0, 0, 0.2), trees::State::ruled_out);
    const auto candidates = wood.ranked();
    EXPECT_EQ(candidates[0].verdict.state, trees::State::not_watched);
    EXPECT_EQ(candidates[1].verdict.state, trees::State::not_watched);
    EXPECT_EQ(candidates[2].verdict.state, trees::State::ruled_out);
    EXPECT_EQ(candidates[0].verdict.reasons.back().rule, "not watched");
}

TEST(Choice, KeepsItsDistanceAndStopsAtTheSitesAskedFor) {
    Wood wood;
    wood.add(0.0, seen(1.0, 3, 3));
    wood.add(29.9, seen(0.9, 3, 3));
    wood.add(30.0, seen(0.8, 3, 3));
    wood.add(80.0, seen(0.05, 3, 3));
    wood.add(200.0, seen(0.7, 3, 3));
    auto candidates = wood.ranked();
    ChoiceSettings settings;
    choose(candidates, wood.inventory, settings);
    EXPECT_EQ(in_order_of_site(candidates), (std::vector<std::size_t>{0, 2, 4}));
    settings.sites = 2;
    choose(candidates = wood.ranked(), wood.inventory, settings);
    EXPECT_EQ(in_order_of_site(candidates), (std::vector<std::size_t>{0, 2}));
}

// Of two sites asked for: those that would rank among the first six, with enough evidence.
TEST(Choice, NamesTheTreesWorthSettling) {
    Wood wood;
    for (int i = 0; i < 8; ++i)
        wood.add(100.0 * i, seen(1.0 - 0.1 * i, 3, 3));
    wood.add(1000.0, seen(0.55, 3, 3), trees::State::settle_first);
    wood.add(1100.0, seen(0.95, 3, 3), trees::State::settle_first);
    wood.add(1200.0, seen(0.35, 3, 3), trees::State::settle_first);
    wood.add(1300.0, seen(0.95, 1, 3), trees::State::settle_first);
    wood.add(1400.0, seen(0.95, 3, 3), trees::State::ruled_out);
    const auto candidates = wood.ranked();
    EXPECT_EQ(candidates[8].would_rank, 6U);
    EXPECT_EQ(candidates[10].would_rank, 8U);
    EXPECT_EQ(worth_settling(candidates, 2), (std::vector<std::size_t>{9, 8}));
    EXPECT_TRUE(worth_settling(candidates, 0).empty());
}

TEST(Rank, TiesKeepTheOrderOfTheInventory) {
    Wood wood;
    for (int i = 0; i < 5; ++i)
        wood.add(100.0 * i, seen(0.5, 2, 3));
    EXPECT_EQ(in_order_of_rank(wood.ranked()), (std::vector<std::size_t>{0, 1, 2, 3, 4}));
}

}  // namespace
}  // namespace roostward::siting
