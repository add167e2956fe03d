#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "activity/examples.hpp"
#include "roostward/activity/flight_density.hpp"
#include "roostward/core/random.hpp"

// Every fast path against the plain double-precision sum of the definition, written here with the C library's
// exp and erf and nothing left out.
namespace roostward {
namespace {

using activity::Bandwidth;
using activity::FlightDensity;
using core::PlanePoint;

constexpr double sqrt_two = std::numbers::sqrt2;
constexpr double two_pi = 2.0 * std::numbers::pi;

double kernel(PlanePoint a, PlanePoint b, double h) {
    return std::exp(-core::squared_distance(a, b) / (2.0 * h * h)) / (two_pi * h * h);
}

/// A Gaussian across times a difference of erf along.
double kernel_along(PlanePoint a, PlanePoint b, PlanePoint x, double h) {
    const double length = core::distance(a, b).value();
    const double ux = (b.easting - a.easting) / length, uy = (b.northing - a.northing) / length;
    const double dx = x.easting - a.easting, dy = x.northing - a.northing;
    const double along = dx * ux + dy * uy, across = dx * uy - dy * ux;
    return std::exp(-across * across / (2.0 * h * h)) / (h * std::sqrt(two_pi)) * 0.5 *
           (std::erf(along / (h * sqrt_two)) - std::erf((along - length) / (h * sqrt_two)));
}

double flown_directly(const survey::Survey& survey, std::uint32_t evening, PlanePoint x, double h) {
    double metres = 0.0;
    for (const survey::Flight& flight : survey.flights) {
        if (flight.evening != evening) continue;
        const double width = std::hypot(h, flight.accuracy.value());
        if (flight.path.size() == 1)
            metres += flight.count * flight.length.value() * kernel(flight.path.front(), x, width);
        for (std::size_t i = 1; i < flight.path.size(); ++i)
            metres += flight.count * kernel_along(flight.path[i - 1], flight.path[i], x, width);
    }
    return metres;
}

/// All round, from stations.
double watched_directly(const survey::Survey& survey, std::uint32_t evening, PlanePoint x, double h) {
    double hours = 0.0;
    for (std::size_t w = 0; w < survey.watches.size(); ++w) {
        if (survey.watch_evening[w] != evening) continue;
        const survey::Watch& watch = survey.watches[w];
        const double r = watch.range.value(), wide = r * r + h * h;
        hours += watch.hours().value() * r * r / wide *
                 std::exp(-core::squared_distance(x, watch.path.front()) / (2.0 * wide));
    }
    return hours;
}

PlanePoint somewhere(core::RandomStream& random) {
    const double east = random.uniform(0.0, 300.0), north = random.uniform(0.0, 200.0);
    return {east, north};
}

/// Three evenings with four stations each, and flights of one kind.
survey::Survey many(core::RandomStream& random) {
    survey::Survey survey;
    for (unsigned day = 1; day <= 3; ++day) {
        survey.evenings.push_back(examples::evening(day));
        for (int i = 0; i < 4; ++i) {
            survey.watches.push_back(examples::watch({somewhere(random)}, random.uniform(0.5, 2.0),
                                                     random.uniform(15.0, 60.0), day));
            survey.watch_evening.push_back(day - 1);
        }
    }
    return survey;
}

enum class Kind { points, segments, tracks };

geo::Line path_of(Kind kind, core::RandomStream& random) {
    const PlanePoint start = somewhere(random);
    if (kind == Kind::points) return {start};
    geo::Line path{start};
    const std::size_t pieces = kind == Kind::segments ? 1 : 12;
    for (std::size_t i = 0; i < pieces; ++i)
        path.push_back(core::moved(path.back(), core::Degrees(random.uniform(0.0, 360.0)),
                                   core::Metres(random.uniform(2.0, 60.0))));
    return path;
}

survey::Survey with_flights(Kind kind, std::size_t count) {
    core::RandomStream random(11, "twins");
    survey::Survey survey = many(random);
    for (std::size_t i = 0; i < count; ++i) {
        const geo::Line path = path_of(kind, random);
        const double length = kind == Kind::points ? 30.0 : geo::length_of(path).value();
        survey.flights.push_back(examples::flight(path, length, 1.0 + static_cast<double>(random.below(3)),
                                                  static_cast<std::uint32_t>(random.below(3))));
        if (kind != Kind::tracks && i % 5 == 0)
            survey.flights.back().accuracy = core::Metres(random.uniform(1.0, 9.0));
    }
    return survey;
}

class AtPoints : public testing::TestWithParam<Kind> {};

TEST_P(AtPoints, FlownMetresEqualTheDirectSum) {
    const survey::Survey survey = with_flights(GetParam(), 400);
    core::RandomStream random(12, "places");
    std::vector<PlanePoint> points(700);
    for (PlanePoint& point : points)
        point = somewhere(random);
    for (const double h : {3.0, 7.0, 15.0}) {
        const FlightDensity density(survey, {core::Metres(h), core::Hours(0.4)}, {});
        const auto table = density.at(points, core::Threads{1});
        double largest = 0.0, worst = 0.0;
        for (std::size_t i = 0; i < points.size(); ++i) {
            for (std::uint32_t n = 0; n < 3; ++n) {
                const double direct = flown_directly(survey, n, points[i], h);
                largest = std::max(largest, direct);
                worst = std::max(worst, std::abs(table.flown[table.at(i, n)] - direct));
            }
        }
        EXPECT_LE(worst, 1e-9 * largest) << "h " << h;
    }
}

INSTANTIATE_TEST_SUITE_P(Kinds, AtPoints, testing::Values(Kind::points, Kind::segments, Kind::tracks));

TEST(AtPoints, EffortEqualsTheDirectSum) {
    survey::Survey survey = with_flights(Kind::points, 50);
    for (survey::Flight& flight : survey.flights)
        flight.accuracy = core::Metres(0.0);
    core::RandomStream random(13, "places");
    std::vector<PlanePoint> points(500);
    for (PlanePoint& point : points)
        point = somewhere(random);
    const double h = 7.0;
    const auto table =
        FlightDensity(survey, {core::Metres(h), core::Hours(0.4)}, {}).at(points, core::Threads{1});
    for (std::size_t i = 0; i < points.size(); ++i) {
        for (std::uint32_t n = 0; n < 3; ++n) {
            // No place has more than the hours of all four watches, at most 8.
            EXPECT_NEAR(table.watched[table.at(i, n)], watched_directly(survey, n, points[i], 0.0), 8e-9);
            EXPECT_NEAR(table.smoothed[table.at(i, n)], watched_directly(survey, n, points[i], h), 8e-9);
        }
    }
}

struct GridCase {
    double cells;  ///< the bandwidth in cells
    bool bearing;
};

void PrintTo(const GridCase& c, std::ostream* out) {
    *out << c.cells << " cells" << (c.bearing ? ", bearing" : "");
}

class OnTheGrid : public testing::TestWithParam<GridCase> {};

// One point at 16 offsets within its cell: 3e-5 of the peak at every cell, for each of them.
TEST_P(OnTheGrid, EqualsTheValueAtCellCentres) {
    const auto [cells, bearing] = GetParam();
    const double cell = 2.0, h = cells * cell;
    activity::Settings settings;
    settings.cell = core::Metres(cell);
    settings.min_watch = core::Hours(0.0);
    for (int offset = 0; offset < 16; ++offset) {
        const PlanePoint at{1000.0 + cell * (offset % 4) / 4.0, 2000.0 + cell * (offset / 4) / 4.0};
        geo::Line path{at};
        if (bearing) {
            const core::Degrees along(10.0 + 22.5 * offset);
            path = {core::moved(at, along, core::Metres(-20.0)), core::moved(at, along, core::Metres(20.0))};
        }
        // A watch wide enough that the grid reaches as far as the flight is felt.
        const auto survey = examples::one_evening({examples::flight(path, 40.0)},
                                                  {examples::watch({at}, 1.0, 40.0 + 2.0 * h)});
        const FlightDensity density(survey, {core::Metres(h), core::Hours(0.0)}, settings);
        const activity::Surfaces surfaces = density.surfaces(core::Threads{1});
        const core::Grid& grid = surfaces.flight_density.grid;
        std::vector<PlanePoint> centres;
        std::vector<double> shown;
        for (std::size_t i = 0; i < grid.size(); ++i) {
            const PlanePoint centre = grid.centre({i / grid.columns, i % grid.columns});
            if (core::distance(centre, at).value() > 60.0 + 6.0 * h) continue;
            centres.push_back(centre);
            shown.push_back(static_cast<double>(surfaces.flight_density.values[i]));
        }
        const auto table = density.at(centres, core::Threads{1});
        double peak = 0.0, worst = 0.0;
        for (std::size_t i = 0; i < centres.size(); ++i) {
            // Compared as metres flown, so that a small effort far out does not magnify the tail.
            const double flown = shown[i] * 1e-4 * table.smoothed[i];
            peak = std::max(peak, table.flown[i]);
            worst = std::max(worst, std::abs(flown - table.flown[i]));
        }
        EXPECT_LE(worst, 3e-5 * peak) << "offset " << offset;
    }
}

INSTANTIATE_TEST_SUITE_P(Bandwidths, OnTheGrid,
                         testing::Values(GridCase{3, false}, GridCase{5, false}, GridCase{7, false},
                                         GridCase{15, false}, GridCase{3, true}, GridCase{5, true},
                                         GridCase{7, true}, GridCase{15, true}));

}  // namespace
}  // namespace roostward
