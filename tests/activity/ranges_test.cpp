#include "roostward/activity/ranges.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

#include "roostward/activity/evening_draws.hpp"

namespace roostward::activity {
namespace {

// Student's t at 0.90 with 2, 3, 6 and 30 degrees of freedom, and z at 0.90: NIST/SEMATECH e-Handbook of
// Statistical Methods, sections 1.3.6.7.2 and 1.3.6.7.1 (three decimals).
TEST(Ranges, StretchFollowsTheTableOfStudentsT) {
    const double z = 1.282;
    for (const auto& [evenings, t] : {std::pair{3U, 1.886}, {4U, 1.638}, {7U, 1.440}, {31U, 1.310}}) {
        const double m = evenings;
        EXPECT_NEAR(stretch_for(evenings), t / z * std::sqrt(m / (m - 1.0)), 2e-3) << evenings;
    }
}

TEST(Ranges, QuantileIsTheSmallestValueWithEnoughWeight) {
    std::vector<Weighted> sample{{5.0, 0.3}, {1.0, 0.1}, {9.0, 0.1}, {2.0, 0.5}};
    const Range range = middle_eight_tenths(sample);
    EXPECT_EQ(range.low, 1.0);
    EXPECT_EQ(range.high, 5.0);
}

TEST(Ranges, AreEmptyBelowThreeEvenings) {
    std::vector<Weighted> sample{{1.0, 0.5}, {2.0, 0.5}};
    EXPECT_FALSE(Ranges(2).of(1.5, sample, 2));
    EXPECT_TRUE(Ranges(3).of(1.5, sample, 3));
}

TEST(Ranges, HoldTheEstimateAndStayAboveZero) {
    std::vector<Weighted> sample{{0.0, 0.2}, {10.0, 0.8}};
    const auto range = Ranges(3).of(1.0, sample, 3);
    EXPECT_EQ(range->low, 0.0);
    EXPECT_NEAR(range->high, 1.0 + 9.0 * stretch_for(3), 1e-12);
    std::vector<Weighted> above{{4.0, 1.0}};
    EXPECT_EQ(Ranges(3).of(1.0, above, 3)->low, 1.0);
}

// There are C(2m−1, m) multisets of m evenings (Feller 1968, An Introduction to Probability Theory, II.5).
TEST(EveningDraws, ListEveryMultisetOnce) {
    const std::size_t counts[] = {1, 3, 10, 35, 126, 462, 1716};
    for (std::size_t m = 1; m <= most_listed_evenings; ++m) {
        const auto draws = draw_evenings(m, 1, 5);
        EXPECT_EQ(draws.size(), counts[m - 1]);
        double sum = 0.0;
        for (const EveningDraw& draw : draws) {
            sum += draw.weight;
            EXPECT_EQ(std::accumulate(draw.times.begin(), draw.times.end(), std::size_t{0}), m);
        }
        EXPECT_NEAR(sum, 1.0, 1e-12);
    }
}

// Each of 27 ordered draws of three evenings is as likely as the next: {a, a, a} is one of them, {a, a, b}
// three, {a, b, c} six.
TEST(EveningDraws, HaveMultinomialWeights) {
    for (const EveningDraw& draw : draw_evenings(3, 1, 5)) {
        const auto distinct =
            std::count_if(draw.times.begin(), draw.times.end(), [](auto t) { return t > 0; });
        const double ways = distinct == 1 ? 1.0 : distinct == 2 ? 3.0 : 6.0;
        EXPECT_NEAR(draw.weight, ways / 27.0, 1e-15);
    }
}

TEST(EveningDraws, AreSeededAboveSeven) {
    const auto one = draw_evenings(12, 7, 200), again = draw_evenings(12, 7, 200),
               other = draw_evenings(12, 8, 200);
    ASSERT_EQ(one.size(), 200U);
    bool differs = false;
    for (std::size_t d = 0; d < one.size(); ++d) {
        EXPECT_EQ(one[d].times, again[d].times);
        EXPECT_EQ(std::accumulate(one[d].times.begin(), one[d].times.end(), 0), 12);
        differs = differs || one[d].times != other[d].times;
    }
    EXPECT_TRUE(differs);
}

// The mean of re-drawn means is the mean, and their variance is σ²/m (Efron & Tibshirani 1993, An
// Introduction to the Bootstrap, section 5.2), exactly, because every re-draw is listed.
TEST(EveningDraws, GiveTheBootstrapVarianceOfAMean) {
    const std::vector<double> evenings{3.0, 8.0, 1.0, 4.0, 9.0};
    const double m = 5.0, mean = 5.0, variance = (4.0 + 9.0 + 16.0 + 1.0 + 16.0) / m;
    double first = 0.0, second = 0.0;
    for (const EveningDraw& draw : draw_evenings(5, 1, 5)) {
        double redrawn = 0.0;
        for (std::size_t n = 0; n < evenings.size(); ++n)
            redrawn += draw.times[n] * evenings[n] / m;
        first += draw.weight * redrawn;
        second += draw.weight * (redrawn - mean) * (redrawn - mean);
    }
    EXPECT_NEAR(first, mean, 1e-12);
    EXPECT_NEAR(second, variance / m, 1e-12);
}

}  // namespace
}  // namespace roostward::activity
