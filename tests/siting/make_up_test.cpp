#include "roostward/siting/make_up.hpp"

#include <gtest/gtest.h>

#include <numeric>

namespace roostward::siting {
namespace {

/// Two evenings of three used, half of λ_ref = 2.
Candidate half_as_good() {
    Candidate tree;
    tree.activity.watched = true;
    tree.activity.flight_density = 1.0;
    tree.activity.evenings_used = 2;
    tree.activity.evenings_watched = 3;
    tree.evidence = (5.0 * 0.5 + 3.0 / 5.0) / 6.0;
    tree.flight_range = activity::Range{0.4, 3.0};
    return tree;
}

double sum_of(const std::vector<ScorePart>& parts) {
    return std::accumulate(parts.begin(), parts.end(), 0.0,
                           [](double sum, const ScorePart& part) { return sum + part.contribution; });
}

TEST(MakeUp, AddsUpToTheEvidenceWhereThePlaceTakesNoPart) {
    const Candidate tree = half_as_good();
    const auto parts = make_up(tree, {}, 2.0, {});
    ASSERT_EQ(parts.size(), 2U);
    EXPECT_NEAR(sum_of(parts), tree.evidence, 1e-12);
    EXPECT_DOUBLE_EQ(parts[0].value.value(), 1e4) << "metres per hectare and hour";
    EXPECT_NEAR(parts[0].range->low, 5.0 / 6.0 * 0.2, 1e-12);
    EXPECT_NEAR(parts[0].range->high, 5.0 / 6.0, 1e-12) << "no utility goes beyond 1";
}

// By hand: fitness 1 − 0.75·0.5 − 0.25·(1 − 0.2) = 0.425, of which 0.4 hang on it: 1 − 0.4 + 0.4·0.425 =
// 0.77.
TEST(MakeUp, ThePlaceTakesAway) {
    Candidate tree = half_as_good();
    tree.fitness = Fitness{};
    tree.fitness->parts[0] = {0.75, std::nullopt};
    tree.fitness->parts[3] = {0.25, 0.2};
    const auto parts = make_up(tree, {}, 2.0, {});
    ASSERT_EQ(parts.size(), 4U) << "what takes no part is not told";
    EXPECT_EQ(parts[2].measure, "approach");
    EXPECT_NEAR(parts[2].range->low, -0.4 * 0.75 * tree.evidence, 1e-12);
    EXPECT_EQ(parts[2].range->high, 0.0);
    EXPECT_FALSE(parts[3].range) << "it is known";
    EXPECT_NEAR(sum_of(parts), 0.77 * tree.evidence, 1e-12);
}

}  // namespace
}  // namespace roostward::siting
