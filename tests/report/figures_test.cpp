#include "roostward/report/figures.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/random.hpp"

namespace roostward::report {
namespace {

std::string words(double value, double low, double high) {
    return rounded_figure(value, activity::Range{low, high}).in_words();
}

TEST(RoundStep, IsTheLargestOfOneTwoAndFive) {
    EXPECT_DOUBLE_EQ(round_step(9.0), 5.0);
    EXPECT_DOUBLE_EQ(round_step(10.0), 10.0);
    EXPECT_DOUBLE_EQ(round_step(4.999), 2.0);
    EXPECT_DOUBLE_EQ(round_step(1.99), 1.0);
    EXPECT_DOUBLE_EQ(round_step(0.24), 0.2);
    EXPECT_DOUBLE_EQ(round_step(0.05), 0.05);
    EXPECT_DOUBLE_EQ(round_step(3e7), 2e7);
}

// 36 / 4 = 9, so fives.
TEST(Figure, IsNoFinerThanAQuarterOfItsRange) {
    EXPECT_EQ(words(34.2, 22.0, 58.0), "35 (20 to 60)");
    EXPECT_EQ(words(34.2, 20.0, 60.0), "30 (20 to 60)") << "a quarter of just ten: tens";
    EXPECT_EQ(words(114.6, 31.0, 240.0), "100 (50 to 250)");
    EXPECT_EQ(words(2.04, 0.9, 3.2), "2 (1 to 3)") << "no decimals that it does not need";
}

TEST(Figure, RoundsTiesAwayFromZero) {
    EXPECT_EQ(words(32.5, 22.0, 58.0), "35 (20 to 60)");
    EXPECT_EQ(words(0.15, 0.0, 0.4), "0.2 (0 to 0.4)") << "0.15 is a little less in binary";
    EXPECT_EQ(words(2.5, 0.0, 4.0), "3 (0 to 4)");
}

TEST(Figure, OfHugeAndTinyOnesHasTheDigitsThatItNeeds) {
    EXPECT_EQ(words(12345678.0, 9e6, 2e7), "12000000 (10000000 to 20000000)");
    EXPECT_EQ(words(0.0034, 0.0012, 0.0061), "0.003 (0.001 to 0.006)");
}

TEST(Figure, IsNeverNothingWhereSomethingWasSeen) {
    EXPECT_EQ(words(0.9, 0.0, 12.0), "under 2 (0 to 12)");
    EXPECT_EQ(words(0.0, 0.0, 12.0), "0 (0 to 12)");
}

// As coarse as what may be anything from 0 to twice itself: half of 114.6 is 57.3, so fifties.
TEST(Figure, SaysWhyItHasNoRange) {
    EXPECT_EQ(rounded_figure(114.6, std::nullopt).in_words(), "100 (range not known)");
    EXPECT_EQ(rounded_figure(3.2, std::nullopt).in_words(), "3 (range not known)");
    EXPECT_EQ(rounded_figure(0.0, std::nullopt).in_words(), "0 (range not known)");
    EXPECT_EQ(words(7.3, 7.3, 7.3), "8 (range not known)") << "a range of no width tells of no digit";
}

TEST(Figure, HasTheDecimalMarkOfTheLanguage) {
    core::speak({{"number.decimal", ","}});
    const Figure figure = rounded_figure(1.5, activity::Range{0.4, 2.9});
    EXPECT_EQ(figure.digits(figure.value), "1,5");
    EXPECT_EQ(figure.plain(figure.value), "1.5");
    core::speak({});
}

// The rule itself, on made-up figures from 1e-6 to 1e6: the step is one of 1, 2, 5 · 10^k, no larger one
// would do, and nothing moves by more than half of it.
TEST(Figure, KeepsTheRuleWhateverItIs) {
    core::RandomStream random(7, "figures");
    for (int i = 0; i < 2000; ++i) {
        const double low = std::pow(10.0, 12.0 * random.uniform() - 6.0);
        const double width = std::pow(10.0, 12.0 * random.uniform() - 6.0);
        const double value = low + width * random.uniform();
        const Figure figure = rounded_figure(value, activity::Range{low, low + width});
        const double quarter = 0.25 * width,
                     power = std::pow(10.0, std::floor(std::log10(figure.step) + 1e-6));
        const double first = figure.step / power;
        EXPECT_LE(figure.step, quarter * (1.0 + 1e-6));
        EXPECT_GT(figure.step * (std::lround(first) == 2 ? 2.5 : 2.0), quarter * (1.0 - 1e-6)) << quarter;
        EXPECT_TRUE(std::abs(first - 1) < 1e-6 || std::abs(first - 2) < 1e-6 || std::abs(first - 5) < 1e-6)
            << figure.step;
        EXPECT_LE(std::abs(figure.value - value), 0.5 * figure.step * (1.0 + 1e-6));
    }
}

// 0.92 with a range of 0.30 at least: a quarter is 7.5 of 100, so fives.
TEST(Score, IsOfAHundredAndInTensWithoutARange) {
    EXPECT_EQ(score_in_words(0.923, activity::Range{0.70, 1.0}), "90 (70 to 100)");
    EXPECT_EQ(score_in_words(0.66, std::nullopt), "70");
    EXPECT_EQ(score_in_words(0.2234, activity::Range{0.2233, 0.2235}), "22 (22 to 22)") << "never finer";
    EXPECT_EQ(score_in_words(0.02, std::nullopt), "under 10");
}

TEST(WholeDegrees, RoundUpwardAndStayBelow360) {
    EXPECT_EQ(whole_degrees(core::Degrees(157.5)), 158);
    EXPECT_EQ(whole_degrees(core::Degrees(22.5)), 23);
    EXPECT_EQ(whole_degrees(core::Degrees(359.6)), 0);
    EXPECT_EQ(whole_degrees(core::Degrees(-90.0)), 270);
}

// A degree of latitude is 111 km, so five decimals are a metre.
TEST(PlaceInDegrees, HasFiveDecimalsAndAPoint) {
    EXPECT_EQ(place_in_degrees(core::Degrees(52.2992862)), "52.29929");
    EXPECT_EQ(place_in_degrees(core::Degrees(-1.8983253)), "-1.89833");
}

}  // namespace
}  // namespace roostward::report
