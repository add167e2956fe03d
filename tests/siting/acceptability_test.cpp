#include "roostward/siting/acceptability.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>
#include <vector>

#include "siting/two_stations.hpp"

namespace roostward::siting {
namespace {

/// Three standard deviations of a share of all draws.
constexpr double three_sd = 0.015;

using Utilities4 = std::array<std::optional<double>, fitness_parts>;

/// One tree in each of two places that are watched alike; one of them is chosen.
struct Pair {
    Site site;
    std::optional<Ranked> ranked;

    /// Flights past the first and past the second on each of `evenings` evenings.
    Pair(unsigned evenings, int first, int second) : site(evenings) {
        site.survey.flights.clear();
        site.inventory.rows.clear();
        for (unsigned day = 1; day <= evenings; ++day) {
            site.add_flights({0, 5}, day, 2 * (day - 1), first);
            site.add_flights({400, 5}, day, 2 * (day - 1) + 1, second);
        }
        site.add_tree({0, 0});
        site.add_tree({400, 0});
        site.settings.choice.sites = 1;
        ranked.emplace(site);
    }
    /// The parts of the two trees' fitness.
    void are(const Utilities4& first, const Utilities4& second) {
        for (std::size_t part = 0; part < fitness_parts; ++part) {
            if (!first[part]) continue;
            place(0).parts[part] = {0.25, first[part]};
            place(1).parts[part] = {0.25, second[part]};
        }
    }
    void draw(unsigned threads = 1) {
        const auto draws = activity::draw_evenings(site.survey.evenings.size(), 1, 200);
        give_acceptability(ranked->candidates, ranked->data(), draws, site.settings, {threads});
    }
    [[nodiscard]] const Candidate& tree(std::size_t i) const { return ranked->candidates[i]; }

 private:
    Fitness& place(std::size_t i) {
        auto& fitness = ranked->candidates[i].fitness;
        if (!fitness) fitness.emplace();
        return *fitness;
    }
};

// Both have the same evidence, so the better place wins whatever its share: w·1 + (1 − w)·0.4 against
// w·0.2 + (1 − w)·0.8 is more where 0.8 w > 0.4 (1 − w), from w = 1/3 on. With w uniform: in two thirds.
TEST(Acceptability, OfTwoTreesWithTwoMeasuresIsTheClosedForm) {
    Pair pair(3, 6, 6);
    pair.are({1.0, 0.4, {}, {}}, {0.2, 0.8, {}, {}});
    pair.draw();
    EXPECT_NEAR(pair.tree(0).acceptability.by_weights, 2.0 / 3.0, three_sd);
    EXPECT_NEAR(pair.tree(1).acceptability.by_weights, 1.0 / 3.0, three_sd);
    EXPECT_NEAR(pair.tree(0).acceptability.first, 2.0 / 3.0, three_sd);
    EXPECT_EQ(pair.tree(0).group, pair.tree(1).group);
}

// The second tree has more evidence, e against 1, but no second measure at all: it scores 1 − s·(1 − w), and
// the first, which lacks nothing, e. With s uniform on 0–0.8 and x = 1 − w on 0–1 the first wins where
// s·x > 1 − e, in 1 − a + a·ln a of the draws with a = (1 − e)/0.8.
TEST(Acceptability, WeighsTheShareOfThePlaceToo) {
    Pair pair(3, 16, 20);
    pair.are({1.0, 1.0, {}, {}}, {1.0, 0.0, {}, {}});
    const double e = pair.tree(0).evidence / pair.tree(1).evidence;
    ASSERT_GT(e, 0.75);
    ASSERT_LT(e, 0.9);
    pair.draw();
    const double a = (1.0 - e) / 0.8;
    EXPECT_NEAR(pair.tree(0).acceptability.by_weights, 1.0 - a + a * std::log(a), three_sd);
}

// Of three parts each is the heaviest as often as the others.
TEST(Acceptability, DrawsWeightsUniformlyOnTheSimplex) {
    Pair pair(1, 6, 6);
    pair.are({1.0, 0.0, 0.0, {}}, {0.0, 0.5, 0.5, {}});
    pair.draw();
    // w₁ > (1 − w₁)/2 where w₁ > 1/3, and P(w₁ > t) = (1 − t)² on three parts.
    EXPECT_NEAR(pair.tree(0).acceptability.by_weights, 4.0 / 9.0, three_sd);
}

TEST(Acceptability, WithoutPartsOnlyEveningsAreDrawn) {
    Pair pair(3, 20, 6);
    pair.draw();
    EXPECT_EQ(pair.tree(0).acceptability.by_weights, 1.0);
    EXPECT_EQ(pair.tree(0).acceptability.chosen, 1.0);
    EXPECT_EQ(pair.tree(1).acceptability.first, 0.0);
    EXPECT_EQ(pair.tree(0).group, 1U);
    EXPECT_EQ(pair.tree(1).group, 2U);
}

// As in Certainty: two used evenings of three are needed, and 20 of 27 re-draws have them.
TEST(Acceptability, RedrawsEveningsByTheirWeights) {
    Site site(3);
    site.settings.choice.sites = 1;
    Ranked ranked(site);
    const auto draws = activity::draw_evenings(3, 1, 200);
    EXPECT_EQ(give_acceptability(ranked.candidates, ranked.data(), draws, site.settings, {1}), 10'000U);
    EXPECT_NEAR(ranked.candidates[3].acceptability.chosen, 20.0 / 27.0, three_sd);
    EXPECT_EQ(ranked.candidates[3].acceptability.by_weights, 1.0);
}

TEST(Acceptability, DrawsLessOftenWhereEachChoiceTakesLong) {
    EXPECT_LT(error_of_shares(weight_draws(30, 100)), 0.01);
    EXPECT_EQ(weight_draws(20, 2000), 1600U);
    EXPECT_EQ(weight_draws(50, 2000), 500U);
}

TEST(Acceptability, IsTheSameForAnyNumberOfThreads) {
    for (const unsigned threads : {2U, 7U}) {
        Pair one(3, 16, 20), many(3, 16, 20);
        for (Pair* pair : {&one, &many})
            pair->are({1.0, 0.7, {}, {}}, {0.6, 0.9, {}, {}});
        one.draw(1);
        many.draw(threads);
        EXPECT_EQ(one.tree(0).acceptability.chosen, many.tree(0).acceptability.chosen);
        EXPECT_EQ(one.tree(0).acceptability.by_weights, many.tree(0).acceptability.by_weights);
        EXPECT_EQ(one.tree(1).acceptability.first, many.tree(1).acceptability.first);
    }
}

}  // namespace
}  // namespace roostward::siting
