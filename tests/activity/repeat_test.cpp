#include <gtest/gtest.h>

#include <cmath>
#include <cstring>
#include <numbers>
#include <vector>

#include "activity/examples.hpp"
#include "roostward/activity/flight_density.hpp"
#include "roostward/activity/kernel.hpp"
#include "roostward/activity/piece_buckets.hpp"
#include "roostward/core/random.hpp"

namespace roostward {
namespace {

using activity::FlightDensity;
using core::PlanePoint;

/// Enough of everything that each loop is shared out over several threads.
survey::Survey mixed_survey() {
    core::RandomStream random(21, "repeat");
    survey::Survey survey;
    for (unsigned day = 1; day <= 3; ++day) {
        survey.evenings.push_back(examples::evening(day));
        survey.watches.push_back(examples::watch({{100, 100}}, 1.5, 55.0, day));
        survey.watches.push_back(examples::watch({{300, 200}, {400, 220}}, 1.0, 40.0, day));
        survey.watches.push_back(examples::watch({{200, 300}}, 0.5, 12.0, day));
        if (day == 1) survey.watches.back().view = survey::FieldOfView{core::Degrees(70), core::Degrees(120)};
        survey.watch_evening.insert(survey.watch_evening.end(), 3, day - 1);
    }
    for (std::uint32_t i = 0; i < 900; ++i) {
        const double east = random.uniform(0.0, 400.0), north = random.uniform(0.0, 300.0);
        geo::Line path{{east, north}};
        if (i % 3 != 0) path.push_back({east + random.uniform(5.0, 50.0), north - random.uniform(5.0, 50.0)});
        if (i % 3 == 2) path.push_back({east, north - 80.0});
        const double length = path.size() > 1 ? geo::length_of(path).value() : 30.0;
        survey.flights.push_back(examples::flight(path, length, 1.0, i % 3));
        survey.flights.back().accuracy = core::Metres(i % 7 == 0 ? 5.0 : 0.0);
        survey.flights.back().watch = (i % 3) * 3;
        survey.flights.back().placed = i % 50 != 0;
    }
    return survey;
}

template <class Value>
void expect_same_bits(const std::vector<Value>& one, const std::vector<Value>& other) {
    ASSERT_EQ(one.size(), other.size());
    EXPECT_EQ(std::memcmp(one.data(), other.data(), one.size() * sizeof(Value)), 0);
}

TEST(SameBits, ForOneTwoAndSevenThreads) {
    core::RandomStream random(22, "points");
    std::vector<PlanePoint> points(1500);
    for (PlanePoint& point : points)
        point = {random.uniform(0.0, 400.0), random.uniform(0.0, 300.0)};
    activity::Settings settings;
    settings.cell = core::Metres(2.0);
    for (const double h : {6.0, 14.0}) {  // below and above five cells
        const FlightDensity density(mixed_survey(), {core::Metres(h), core::Hours(0.4)}, settings);
        const auto table = density.at(points, core::Threads{1});
        const auto surfaces = density.surfaces(core::Threads{1});
        for (const unsigned threads : {2U, 7U}) {
            SCOPED_TRACE(threads);
            const auto again = density.at(points, core::Threads{threads});
            expect_same_bits(table.flown, again.flown);
            expect_same_bits(table.watched, again.watched);
            expect_same_bits(table.smoothed, again.smoothed);
            expect_same_bits(table.used, again.used);
            const auto other = density.surfaces(core::Threads{threads});
            expect_same_bits(surfaces.flight_density.values, other.flight_density.values);
            expect_same_bits(surfaces.flight_density.known, other.flight_density.known);
            expect_same_bits(surfaces.watch_hours.values, other.watch_hours.values);
        }
    }
}

/// Each piece is an evening of its own, so that its kernel arrives alone.
TEST(SameBits, OfWideVectorInstructionsAndPlainOnes) {
    core::RandomStream random(23, "lanes");
    for (const double half_length : {0.0, 12.0}) {
        std::vector<activity::Piece> pieces(500);
        for (std::uint32_t i = 0; i < pieces.size(); ++i) {
            auto& piece = pieces[i];
            piece.middle = {random.uniform(0.0, 30.0), random.uniform(0.0, 30.0)};
            const double bearing = random.uniform(0.0, 2.0 * std::numbers::pi);
            piece.east = std::sin(bearing);
            piece.north = std::cos(bearing);
            piece.half_length = half_length;
            piece.weight = random.uniform(1.0, 3.0);
            piece.width = random.uniform(6.0, 20.0);
            piece.evening = i;
        }
        const PlanePoint x{14.0, 17.0};
        std::vector<double> flown(pieces.size(), 0.0), plain;
        activity::PieceBuckets(pieces).add_at(x, flown.data());
        for (const auto& p : pieces) {
            const double dx = x.easting - p.middle.easting, dy = x.northing - p.middle.northing;
            const double kernel = half_length == 0.0 ? activity::point_kernel(dx * dx + dy * dy, p.width)
                                                     : activity::segment_kernel(dy * p.east - dx * p.north,
                                                                                dx * p.east + dy * p.north,
                                                                                half_length, p.width);
            plain.push_back(p.weight * kernel);
        }
        expect_same_bits(flown, plain);
    }
}

}  // namespace
}  // namespace roostward
