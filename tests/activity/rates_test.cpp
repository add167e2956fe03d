#include "roostward/activity/rates.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <boost/math/distributions/gamma.hpp>
#include <numeric>
#include <random>
#include <vector>

namespace roostward::activity {
namespace {

constexpr Unexplained nothing{};
/// Evenings that hardly differ: the negative binomial is all but Poisson's.
constexpr double hardly_any = 0.02;

/// One place, watched so many hours on each evening.
CountTable one_place(std::vector<double> counts, double hours) {
    return {counts.size(), counts, std::vector<double>(counts.size(), hours), 1.0};
}

// Where nothing is learnt from other places, a gamma prior of mean 1 and coefficient of variation 1.75 and
// Poisson counts make a gamma posterior (conjugate pair, e.g. Gelman et al., Bayesian Data Analysis, section
// 2.6), cut off below 1/400 of the mean: quantiles by Boost.Math. The rates looked at are 15 % apart.
TEST(Rates, GammaPriorAndPoissonCountsMakeAGammaPosterior) {
    constexpr double shape = 1.0 / (1.75 * 1.75), least = 1.0 / 400.0;
    for (const double count : {0.0, 1.0, 4.0, 30.0}) {
        const CountTable table = one_place({count, count}, 2.0);
        const RateEstimate rate = Rates(table, {}, hardly_any, nothing).of(table, 0, 2);
        const double scale = 1.0 / (shape + 4.0);
        const boost::math::gamma_distribution<> posterior(shape + 2.0 * count, scale);
        const boost::math::gamma_distribution<> once_more(shape + 2.0 * count + 1.0, scale);
        const double cut = boost::math::cdf(posterior, least);
        const double mean = boost::math::mean(posterior) *
                            boost::math::cdf(boost::math::complement(once_more, least)) / (1.0 - cut);
        const auto quantile = [&](double share) {
            return boost::math::quantile(posterior, cut + share * (1.0 - cut));
        };
        EXPECT_NEAR(rate.mean, mean, 0.04 * mean) << count;
        EXPECT_NEAR(rate.range.high, quantile(0.9), 0.04 * quantile(0.9)) << count;
        EXPECT_NEAR(rate.range.low, quantile(0.1), 0.08 * quantile(0.1)) << count;
    }
}

TEST(Rates, EveningsThatDifferMoreGiveWiderRanges) {
    const CountTable table = one_place({12.0}, 1.0);
    double last = 0.0;
    for (const double spread : {0.1, 0.5, 1.0, 2.0}) {
        const Range range = Rates(table, {}, spread, nothing).of(table, 0, 1).range;
        EXPECT_GT(range.high / range.low, last);
        last = range.high / range.low;
    }
}

TEST(Rates, OneNotedThingThatStandsForManyTellsLess) {
    const CountTable many = one_place({12.0}, 12.0);
    CountTable few = many;
    few.one = 6.0;
    const Range sure = Rates(many, {}, 0.2, nothing).of(many, 0, 1).range;
    const Range unsure = Rates(few, {}, 0.2, nothing).of(few, 0, 1).range;
    EXPECT_GT(unsure.high - unsure.low, 1.5 * (sure.high - sure.low));
}

/// Places whose true rates are log-normal, each counted on one evening.
struct Drawn {
    std::vector<double> truth;
    CountTable table;
};
Drawn draw_places(unsigned seed, std::size_t evenings, double spread) {
    std::mt19937 random(seed);
    std::lognormal_distribution<double> rates(0.5, 1.0);
    std::gamma_distribution<double> factors(1.0 / (spread * spread), spread * spread);
    Drawn drawn;
    drawn.table.evenings = evenings;
    for (std::size_t place = 0; place < 300; ++place) {
        drawn.truth.push_back(rates(random));
        for (std::size_t n = 0; n < evenings; ++n) {
            const double mean = drawn.truth.back() * 1.5 * factors(random);
            drawn.table.counts.push_back(mean > 0.0 ? std::poisson_distribution<int>(mean)(random) : 0);
            drawn.table.hours.push_back(1.5);
        }
    }
    return drawn;
}

std::vector<std::size_t> all_places(const CountTable& table) {
    std::vector<std::size_t> places(table.hours.size() / table.evenings);
    std::iota(places.begin(), places.end(), std::size_t{0});
    return places;
}

// Whoever picks the places that look best picks those that were lucky (Efron 2011, JASA 106): raw rates of
// the best twelve in 300 are far too high, and their ranges must hold the truth all the same.
TEST(Rates, WhatLooksBestIsNotBelievedMoreThanItDeserves) {
    double raw = 0.0, stated = 0.0, truth = 0.0;
    int held = 0, ranges = 0;
    for (unsigned seed = 1; seed <= 30; ++seed) {
        const Drawn drawn = draw_places(seed, 1, 0.7);
        const Rates rates(drawn.table, all_places(drawn.table), 0.7, nothing);
        std::vector<std::size_t> best = all_places(drawn.table);
        std::ranges::stable_sort(best, std::greater{}, [&](std::size_t i) { return drawn.table.counts[i]; });
        best.resize(12);
        for (const std::size_t place : best) {
            const RateEstimate rate = rates.of(drawn.table, place, 1);
            raw += drawn.table.counts[place] / 1.5;
            stated += rate.mean;
            truth += drawn.truth[place];
            held += rate.range.low <= drawn.truth[place] && drawn.truth[place] <= rate.range.high ? 1 : 0;
            ++ranges;
        }
    }
    EXPECT_GT(raw / truth, 1.3);
    EXPECT_NEAR(stated / truth, 1.0, 0.1);
    EXPECT_NEAR(static_cast<double>(held) / ranges, 0.8, 0.06);
}

TEST(Rates, EveningsTellHowMuchTheyDiffer) {
    const auto spread_seen = [](double spread) {
        double sum = 0.0;
        for (unsigned seed = 1; seed <= 5; ++seed) {
            const Drawn drawn = draw_places(seed, 7, spread);
            sum += evening_spread_of(drawn.table, all_places(drawn.table), 0.75, core::Threads{1}) / 5.0;
        }
        return sum;
    };
    EXPECT_LT(spread_seen(0.3), 0.6);
    EXPECT_GT(spread_seen(1.4), 1.0);
    const Drawn once = draw_places(1, 1, 0.3);
    EXPECT_EQ(evening_spread_of(once.table, all_places(once.table), 0.75, core::Threads{1}), 0.75)
        << "nothing was watched twice";
}

TEST(Rates, NothingSeenAnywhereStillHasAnUpperEnd) {
    const CountTable table = one_place({0.0, 0.0}, 1.5);
    const std::vector<std::size_t> learn{0};
    const RateEstimate rate = Rates(table, learn, 0.75, nothing).of(table, 0, 2);
    EXPECT_GT(rate.range.high, 0.05);
    EXPECT_LT(rate.range.high, 2.0);
}

}  // namespace
}  // namespace roostward::activity
