#include <gtest/gtest.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdlib>
#include <iostream>
#include <numbers>
#include <string>
#include <vector>

#include "activity/examples.hpp"
#include "roostward/activity/flight_density.hpp"
#include "roostward/core/random.hpp"

// Spots and places that lie so close together that places share the work, against the plain double-precision
// sum of the definition, with the C library's exp and nothing left out.
namespace roostward {
namespace {

using activity::EveningTable;
using activity::FlightDensity;
using core::PlanePoint;

constexpr double h = 9.0;
constexpr std::uint32_t evenings = 3;

PlanePoint somewhere(core::RandomStream& random) {
    const double east = random.uniform(-150.0, 150.0), north = random.uniform(-100.0, 100.0);
    return {east, north};
}

survey::Survey dense_survey() {
    core::RandomStream random(31, "dense spots");
    survey::Survey survey;
    for (std::uint32_t n = 0; n < evenings; ++n) {
        survey.evenings.push_back(examples::evening(n + 1));
        survey.watches.push_back(examples::watch({{0, 0}}, 1.5, 60.0, n + 1));
        survey.watch_evening.push_back(n);
    }
    for (std::uint32_t i = 0; i < 6000; ++i) {
        survey.flights.push_back(examples::flight({somewhere(random)}, 30.0, 1.0 + i % 3, i % evenings));
        if (i % 4 == 0) survey.flights.back().accuracy = core::Metres(random.uniform(1.0, 9.0));
    }
    return survey;
}

/// With some on the edges of squares, which are counted from 0.
std::vector<PlanePoint> dense_places() {
    core::RandomStream random(32, "dense places");
    std::vector<PlanePoint> places{{0.0, 0.0}, {0.0, 31.0}, {-44.0, 0.0}, {-0.0, -1e-12}};
    while (places.size() < 5000)
        places.push_back(somewhere(random));
    return places;
}

EveningTable table_at(std::span<const PlanePoint> places, unsigned threads) {
    return FlightDensity(dense_survey(), {core::Metres(h), core::Hours(0.4)}, {})
        .at(places, core::Threads{threads});
}

TEST(DenseSpots, EqualTheDirectSum) {
    const survey::Survey survey = dense_survey();
    const std::vector<PlanePoint> places = dense_places();
    const EveningTable table = table_at(places, 1);
    double worst = 0.0, largest = 0.0;
    for (std::size_t i = 0; i < places.size(); i += i < 10 ? 1 : 13) {
        std::vector<double> direct(evenings, 0.0);
        for (const survey::Flight& flight : survey.flights) {
            const double width = std::hypot(h, flight.accuracy.value()), squared = 2.0 * width * width;
            direct[flight.evening] +=
                flight.count * flight.length.value() *
                std::exp(-core::squared_distance(flight.path.front(), places[i]) / squared) /
                (std::numbers::pi * squared);
        }
        for (std::size_t n = 0; n < evenings; ++n) {
            worst = std::max(worst, std::abs(table.flown[table.at(i, n)] - direct[n]));
            largest = std::max(largest, direct[n]);
        }
    }
    EXPECT_LE(worst, 1e-9 * largest);
}

TEST(DenseSpots, CountThoseCloseByToThePiece) {
    const survey::Survey survey = dense_survey();
    const std::vector<PlanePoint> places = dense_places();
    const EveningTable table = table_at(places, 1);
    for (std::size_t i = 0; i < places.size(); i += 50) {
        std::vector<std::uint32_t> close(evenings, 0);
        for (const survey::Flight& flight : survey.flights)
            if (core::squared_distance(flight.path.front(), places[i]) <= 4.0 * h * h)
                ++close[flight.evening];
        for (std::size_t n = 0; n < evenings; ++n)
            EXPECT_EQ(table.used[table.at(i, n)], close[n]);
    }
}

// A place by itself sums its spots; among others it takes from nodes. Were the last digits the same, the
// tests above would say nothing of nodes.
TEST(DenseSpots, ShareTheWorkOnlyAmongMany) {
    const std::vector<PlanePoint> places = dense_places();
    const EveningTable among_many = table_at(places, 1);
    const EveningTable alone = table_at(std::span(places).first(1), 1);
    EXPECT_NE(alone.flown[0], among_many.flown[0]);
    EXPECT_NEAR(alone.flown[0] / among_many.flown[0], 1.0, 1e-8);
}

/// Spots and places over metres or kilometres, evenly or in a clump, far from where squares are counted from.
struct Strewn {
    survey::Survey survey;
    std::vector<PlanePoint> places;
    core::Metres bandwidth;
};

Strewn strewn(std::uint64_t seed) {
    core::RandomStream random(seed, "strewn");
    const double side = std::exp(random.uniform(std::log(5.0), std::log(3000.0)));
    const double width = std::exp(random.uniform(0.0, std::log(40.0)));
    const PlanePoint corner{random.uniform(-5e6, 5e6), random.uniform(-5e6, 5e6)};
    const bool in_a_clump = random.below(2) == 0;
    const auto place = [&] {
        const bool near = in_a_clump && random.below(3) != 0;
        const double east = near ? 0.3 * side + width * random.normal() : random.uniform(0.0, side);
        const double north = near ? 0.3 * side + width * random.normal() : random.uniform(0.0, side);
        return PlanePoint{corner.easting + east, corner.northing + north};
    };
    Strewn made{{}, {}, core::Metres(width)};
    const auto nights = static_cast<std::uint32_t>(1 + random.below(14));
    for (std::uint32_t n = 0; n < nights; ++n)
        made.survey.evenings.push_back(examples::evening(n + 1));
    const double roughest = random.below(3) == 0 ? 0.0 : std::exp(random.uniform(-2.0, 4.0));
    for (std::size_t i = 1 + random.below(4000); i > 0; --i) {
        made.survey.flights.push_back(
            examples::flight({place()}, 30.0, 1.0, static_cast<std::uint32_t>(random.below(nights))));
        if (i % 2 == 0) made.survey.flights.back().accuracy = core::Metres(random.uniform(0.0, roughest));
    }
    for (std::size_t i = 1 + random.below(3000); i > 0; --i)
        made.places.push_back(place());
    return made;
}

TEST(DenseSpots, GiveEachPlaceWhatItHasByItself) {
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        const Strewn made = strewn(seed);
        const FlightDensity density(made.survey, {made.bandwidth, core::Hours(0.4)}, {});
        const EveningTable together = density.at(made.places, core::Threads{1});
        const double largest = std::ranges::max(together.flown);
        for (std::size_t i = 0; i < made.places.size(); i += made.places.size() / 20 + 1) {
            const EveningTable alone = density.at(std::span(made.places).subspan(i, 1), core::Threads{1});
            for (std::size_t n = 0; n < alone.evenings; ++n) {
                EXPECT_NEAR(alone.flown[n], together.flown[together.at(i, n)], 1e-9 * largest)
                    << "seed " << seed;
                EXPECT_EQ(alone.used[n], together.used[together.at(i, n)]) << "seed " << seed;
            }
        }
    }
}

std::string bits_of(const EveningTable& table) {
    std::uint64_t hash = 14695981039346656037U;  // FNV-1a
    for (const double value : table.flown)
        hash = (hash ^ std::bit_cast<std::uint64_t>(value)) * 1099511628211U;
    return std::to_string(hash);
}

TEST(DenseSpots, HaveTheSameBitsForAnyNumberOfThreads) {
    const std::vector<PlanePoint> places = dense_places();
    const std::string one = bits_of(table_at(places, 1));
    EXPECT_EQ(bits_of(table_at(places, 2)), one);
    EXPECT_EQ(bits_of(table_at(places, 7)), one);
}

// The test runs itself again, as an older processor would.
TEST(DenseSpotsDeathTest, HaveTheSameBitsOnAnOlderProcessor) {
    GTEST_FLAG_SET(death_test_style, "threadsafe");
    const std::string here = bits_of(table_at(dense_places(), 1));
    for (const char* masked : {"glibc.cpu.hwcaps=-AVX512F,-FMA", "glibc.cpu.hwcaps=-AVX512F,-AVX2,-FMA"}) {
        ASSERT_EQ(::setenv("GLIBC_TUNABLES", masked, 1), 0);
        EXPECT_EXIT(
            {
                std::cerr << bits_of(table_at(dense_places(), 1));
                std::exit(0);
            },
            testing::ExitedWithCode(0), here);
        ::unsetenv("GLIBC_TUNABLES");
    }
}

}  // namespace
}  // namespace roostward
