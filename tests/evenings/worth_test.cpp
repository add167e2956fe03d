#include "roostward/evenings/worth.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace roostward::evenings {
namespace {

// A worked figure: shape 2, 1 h behind it, 1.5 h to come, a rival of 3 an hour.
TEST(WorthOfWatching, IsTheKnowledgeGradient) {
    const Belief belief{2.0, core::Hours(1.0)};
    EXPECT_NEAR(foreseen_shift(belief, core::Hours(1.5)), 1.0954, 5e-5);
    EXPECT_NEAR(worth_of_watching(belief, core::Hours(1.5), 3.0), 0.10745, 5e-6);
}

// E[max(N(m, s²), c)] − max(m, c) by Simpson's rule.
TEST(WorthOfWatching, IsWhatTheBetterOfTwoIsExpectedToGain) {
    for (const double rival : {0.5, 1.5, 2.0, 4.0}) {
        const Belief belief{3.0, core::Hours(2.0)};
        const double s = foreseen_shift(belief, core::Hours(0.7)), m = belief.mean();
        const int steps = 4000;
        double sum = 0.0;
        for (int i = 0; i <= steps; ++i) {
            const double z = -8.0 + 16.0 * i / steps;
            const double density = std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::acos(-1.0));
            const double weight = i == 0 || i == steps ? 1.0 : i % 2 == 1 ? 4.0 : 2.0;
            sum += weight * density * std::max(m + s * z, rival) * 16.0 / steps / 3.0;
        }
        EXPECT_NEAR(worth_of_watching(belief, core::Hours(0.7), rival), sum - std::max(m, rival), 1e-6);
    }
}

TEST(WorthOfWatching, IsNothingWhereNothingIsWatched) {
    EXPECT_EQ(worth_of_watching({2.0, core::Hours(1.0)}, core::Hours(0.0), 2.0), 0.0);
}

TEST(Belief, HasTheMeanAndTheDeviationThatWereAskedFor) {
    const Belief belief = belief_of(4.0, 3.0);
    EXPECT_DOUBLE_EQ(belief.mean(), 4.0);
    EXPECT_DOUBLE_EQ(belief.variance(), 9.0);
}

}  // namespace
}  // namespace roostward::evenings
