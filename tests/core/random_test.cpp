#include "roostward/core/random.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace roostward::core {
namespace {

constexpr int draws = 200'000;

TEST(RandomStream, RepeatsForOneSeedAndDiffersByName) {
    RandomStream a(7, "flights"), b(7, "flights"), c(7, "trees");
    const auto first = a.bits();
    EXPECT_EQ(first, b.bits());
    EXPECT_NE(first, c.bits());
}

// Moments of the textbook distributions, each within five standard errors.
TEST(RandomStream, NormalHasMeanZeroAndVarianceOne) {
    RandomStream random(1, "normal");
    double sum = 0.0, squares = 0.0;
    for (int i = 0; i < draws; ++i) {
        const double x = random.normal();
        sum += x;
        squares += x * x;
    }
    EXPECT_NEAR(sum / draws, 0.0, 5.0 / std::sqrt(draws));
    EXPECT_NEAR(squares / draws, 1.0, 5.0 * std::sqrt(2.0 / draws));
}

TEST(RandomStream, PoissonHasEqualMeanAndVariance) {
    for (const double mean : {0.3, 12.0, 1234.5}) {
        RandomStream random(2, "poisson");
        double sum = 0.0, squares = 0.0;
        constexpr int few = 20'000;
        for (int i = 0; i < few; ++i) {
            const double x = static_cast<double>(random.poisson(mean)) - mean;
            sum += x;
            squares += x * x;
        }
        EXPECT_NEAR(sum / few, 0.0, 5.0 * std::sqrt(mean / few));
        EXPECT_NEAR(squares / few / mean, 1.0, 5.0 * std::sqrt((2.0 + 1.0 / mean) / few));
    }
}

TEST(RandomStream, BelowReachesEveryNumberAlike) {
    RandomStream random(3, "below");
    int counts[6] = {};
    for (int i = 0; i < draws; ++i)
        ++counts[random.below(6)];
    for (const int count : counts)
        EXPECT_NEAR(count, draws / 6.0, 5.0 * std::sqrt(draws / 6.0));
}

}  // namespace
}  // namespace roostward::core
