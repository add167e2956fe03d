#include "roostward/activity/flight_lines.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "activity/examples.hpp"
#include "roostward/activity/contrast.hpp"
#include "roostward/core/random.hpp"

namespace roostward::activity {
namespace {

using core::PlanePoint;

std::vector<Heading> headings(const std::vector<double>& degrees) {
    std::vector<Heading> made;
    made.reserve(degrees.size());
    for (const double bearing : degrees)
        made.push_back({core::Degrees(bearing)});
    return made;
}

// Mardia & Jupp 2000, Directional Statistics, example 1.1: mean 51°, mean resultant length 0.711. Half the
// angles make axes that double to them.
TEST(MeanAxis, IsThePublishedMeanOfTheDoubledAngles) {
    const Axis axis = mean_axis(headings({21.5, 22.5, 26, 30.5, 37.5, 44, 44, 139.5, 178.5}));
    EXPECT_NEAR(2.0 * axis.bearing.value(), 51.0, 0.5);
    EXPECT_NEAR(axis.resultant, 0.711, 0.0005);
}

// Out and back: the mean of {20, 25, 15} and their opposites is 20°; doubled deviations 0, ±10° leave
// R = (1 + 2 cos 10°)/3.
TEST(MeanAxis, TakesOutAndBackAsOneLine) {
    const Axis axis = mean_axis(headings({20, 200, 25, 205, 15, 195}));
    EXPECT_NEAR(axis.bearing.value(), 20.0, 1e-9);
    EXPECT_NEAR(axis.resultant, 0.98987, 5e-6);
    EXPECT_EQ(mean_axis(headings({0, 90})).resultant, 0.0);
    EXPECT_NEAR(mean_axis(headings({179, 1, 181})).bearing.value(), 0.333, 0.001);
}

// Values of the statistics tests of Gammapy (an open library for counting in gamma-ray astronomy), which
// holds the same likelihood ratio of Li & Ma 1983.
TEST(Contrast, AgreesWithACountingLibrary) {
    EXPECT_NEAR(contrast(1, 2, 1.0), -0.5829220133009171, 1e-12);
    EXPECT_NEAR(contrast(5, 1, 1.0), 1.7061745691234782, 1e-12);
    EXPECT_NEAR(contrast(10, 5, 0.3), 3.5853812867949024, 1e-12);
    EXPECT_NEAR(contrast(10, 23, 0.1), 3.443415522820395, 1e-12);
    EXPECT_NEAR(contrast(1, 20, 1.0), -4.590373638528086, 1e-12);
    EXPECT_EQ(contrast(0, 0, 0.3), 0.0);
}

constexpr double range = 60.0;
constexpr core::Degrees way{60.0};  // of the route, which runs through the station

struct Seen {
    survey::Survey survey;
};

/// Four evenings of two hours at one station; on each, flights along the route, every fourth of them back,
/// scattered 4 m aside.
Seen one_route(std::size_t flights_an_evening, survey::Behaviour behaviour) {
    core::RandomStream random(5, "one route");
    Seen seen;
    for (std::uint32_t n = 0; n < 4; ++n) {
        seen.survey.evenings.push_back(examples::evening(n + 1));
        seen.survey.watches.push_back(examples::watch({{500.0, 500.0}}, 2.0, range, n + 1));
        seen.survey.watch_evening.push_back(n);
        for (std::size_t i = 0; i < flights_an_evening; ++i) {
            const PlanePoint on = core::moved({500, 500}, way, core::Metres(range * random.normal()));
            const PlanePoint at =
                core::moved(on, way + core::Degrees(90), core::Metres(4.0 * random.normal()));
            const core::Degrees to = i % 4 == 0 ? way + core::Degrees(180) : way;
            const core::Metres half(0.5 * range);
            auto flight = examples::flight({core::moved(at, to, -1.0 * half), core::moved(at, to, half)},
                                           range, 1.0, n);
            flight.behaviour = behaviour;
            if (i < 3) flight.height = core::Metres(2.0 + static_cast<double>(i));
            seen.survey.flights.push_back(std::move(flight));
        }
    }
    return seen;
}

std::vector<FlightLine> lines_in(const Seen& seen, unsigned threads = 1) {
    return find_flight_lines(seen.survey, {core::Metres(7.0), core::Hours(0.4)}, {}, core::Threads{threads});
}

// Everything a line tells was put in: course 60°, a quarter back (twice the rarer share: 0.5), heights of 2,
// 3 and 4 m, all four evenings.
TEST(FlightLines, TellWhatWasPutIn) {
    const Seen seen = one_route(40, survey::Behaviour::commuting);
    const auto lines = lines_in(seen);
    ASSERT_EQ(lines.size(), 1U);
    const FlightLine& line = lines[0];
    EXPECT_EQ(line.id, "A");
    EXPECT_NEAR(line.length.value(), geo::length_of(line.path).value(), 1e-9);
    EXPECT_GT(line.length.value(), 100.0);
    for (const PlanePoint p : line.path) {
        const double aside = (p.easting - 500.0) * std::cos(std::numbers::pi / 3.0) -
                             (p.northing - 500.0) * std::sin(std::numbers::pi / 3.0);
        EXPECT_LT(std::fabs(aside), 5.0);
    }
    ASSERT_TRUE(line.axis.has_value());
    EXPECT_NEAR(line.axis->bearing.value(), 60.0, 1e-6);
    EXPECT_NEAR(line.axis->resultant, 1.0, 1e-9);
    EXPECT_NEAR(*line.two_way, 0.5, 0.06);
    ASSERT_TRUE(line.height.has_value());
    EXPECT_NEAR(line.height->value(), 3.0, 0.51);
    EXPECT_EQ(line.evenings_watched, 4U);
    EXPECT_EQ(line.evenings_used, 4U);
    EXPECT_GT(line.passes, 120U);
    EXPECT_LE(line.passes, 160U);
    EXPECT_GT(line.steady, 0.95);
}

// Ten flights an evening cross the route 80° off: they say nothing of which way it runs.
TEST(FlightLines, RunAsTheFlightsAlongThem) {
    Seen seen = one_route(40, survey::Behaviour::commuting);
    core::RandomStream random(6, "across the route");
    for (std::uint32_t n = 0; n < 4; ++n) {
        for (std::size_t i = 0; i < 10; ++i) {
            const PlanePoint on = core::moved({500, 500}, way, core::Metres(range * random.normal()));
            const core::Metres half(0.5 * range);
            const core::Degrees to = way + core::Degrees(80);
            auto flight = examples::flight({core::moved(on, to, -1.0 * half), core::moved(on, to, half)},
                                           range, 1.0, n);
            flight.behaviour = survey::Behaviour::commuting;
            seen.survey.flights.push_back(std::move(flight));
        }
    }
    const auto lines = lines_in(seen);
    ASSERT_FALSE(lines.empty());
    ASSERT_TRUE(lines[0].axis.has_value());
    EXPECT_NEAR(lines[0].axis->bearing.value(), 60.0, 1e-6);
    EXPECT_NEAR(*lines[0].two_way, 0.5, 0.06);
}

TEST(FlightLines, AreNotMadeByForaging) {
    EXPECT_TRUE(lines_in(one_route(40, survey::Behaviour::foraging)).empty());
}

// What stands out by chance is a matter of how many flights there were, not of the metres that each stands
// for.
TEST(FlightLines, AreTheSameWhateverMetresAPassStandsFor) {
    for (const std::size_t flights : {3U, 6U, 40U}) {
        Seen seen = one_route(flights, survey::Behaviour::commuting);
        const auto lines = lines_in(seen);
        for (survey::Flight& flight : seen.survey.flights)
            flight.length = 2.5 * flight.length;
        const auto again = lines_in(seen);
        ASSERT_EQ(again.size(), lines.size()) << flights;
        for (std::size_t i = 0; i < lines.size(); ++i) {
            EXPECT_NEAR(again[i].length.value(), lines[i].length.value(), 1e-3);
            EXPECT_NEAR(again[i].flight_density, 2.5 * lines[i].flight_density,
                        1e-6 * lines[i].flight_density);
            EXPECT_EQ(again[i].steady, lines[i].steady);
        }
    }
}

TEST(FlightLines, AreNotMadeByAHandfulOfFlights) {
    EXPECT_TRUE(lines_in(one_route(1, survey::Behaviour::unknown)).empty());
    EXPECT_TRUE(lines_in({}).empty());
}

// Many animals that wander over one pond have no route there: a round spot is no line.
TEST(FlightLines, AreNotMadeByARoundSpot) {
    for (std::uint64_t seed = 1; seed <= 10; ++seed) {
        core::RandomStream random(seed, "pond");
        Seen seen = one_route(100, survey::Behaviour::unknown);
        for (auto& flight : seen.survey.flights) {
            const PlanePoint at{510.0 + 15.0 * random.normal(), 490.0 + 15.0 * random.normal()};
            const core::Degrees to(random.uniform(0.0, 360.0));
            const core::Metres half(0.5 * range);
            flight.path = {core::moved(at, to, -1.0 * half), core::moved(at, to, half)};
        }
        EXPECT_TRUE(lines_in(seen).empty()) << "seed " << seed;
    }
}

/// Adds flights that cross the whole view one way, within some 15°.
void add_front(Seen& seen, std::size_t flights_an_evening, core::Degrees bearing, std::uint64_t seed) {
    core::RandomStream random(seed, "front");
    for (std::uint32_t n = 0; n < 4; ++n)
        for (std::size_t i = 0; i < flights_an_evening; ++i) {
            const PlanePoint at{500.0 + range * random.normal(), 500.0 + range * random.normal()};
            const core::Degrees to = bearing + core::Degrees(15.0 * random.normal());
            const core::Metres half(0.5 * range);
            seen.survey.flights.push_back(examples::flight(
                {core::moved(at, to, -1.0 * half), core::moved(at, to, half)}, range, 1.0, n));
        }
}

// All fly the same way, but no more here than there: as many lines as in a park of constant rate, one in ten.
TEST(FlightLines, AreHardlyMadeByABroadFront) {
    std::size_t with_line = 0;
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        Seen seen = one_route(0, survey::Behaviour::unknown);
        add_front(seen, 50, way, seed);
        with_line += lines_in(seen).empty() ? 0 : 1;
    }
    EXPECT_LE(with_line, 2U);
}

// Those that fly across a route say nothing against it.
TEST(FlightLines, AreFoundUnderAFrontThatGoesAcross) {
    std::size_t found = 0;
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        Seen seen = one_route(8, survey::Behaviour::unknown);
        add_front(seen, 150, way + core::Degrees(90), seed);
        const auto lines = lines_in(seen);
        found += std::ranges::any_of(lines, [](const FlightLine& line) {
            const std::vector<Heading> runs{{core::grid_bearing(line.path.front(), line.path.back())}};
            return std::fabs(mean_axis(runs).bearing.value() - way.value()) < 20.0;
        });
    }
    EXPECT_GE(found, 18U);
}

TEST(FlightLines, AreTheSameForAnyNumberOfThreads) {
    const Seen seen = one_route(40, survey::Behaviour::commuting);
    const auto one = lines_in(seen, 1);
    for (const unsigned threads : {2U, 7U}) {
        const auto more = lines_in(seen, threads);
        ASSERT_EQ(one.size(), more.size());
        for (std::size_t i = 0; i < one.size(); ++i) {
            EXPECT_EQ(one[i].path, more[i].path);
            EXPECT_EQ(one[i].flight_density, more[i].flight_density);
            EXPECT_EQ(one[i].steady, more[i].steady);
        }
    }
}

}  // namespace
}  // namespace roostward::activity
