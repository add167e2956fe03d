#include "roostward/activity/flights_past.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

namespace roostward::activity {
namespace {

constexpr double reach = past_reach.value();

/// One evening, one watch at the origin for an hour, that sees 40 m.
survey::Survey one_watch() {
    survey::Survey survey;
    survey.evenings.resize(1);
    survey::Watch watch;
    watch.path = {{0.0, 0.0}};
    watch.end = watch.start + std::chrono::hours(1);
    watch.range = core::Metres(40.0);
    survey.watches.push_back(watch);
    survey.watch_evening.push_back(0);
    return survey;
}

survey::Flight flight_along(geo::Line path, double metres) {
    survey::Flight flight;
    flight.watch = 0;
    flight.path = std::move(path);
    flight.length = core::Metres(metres);
    return flight;
}

TEST(FlightsPast, AFlightCountsOnceAndToItsReachInclusive) {
    survey::Survey survey = one_watch();
    survey.flights.push_back(flight_along({{-30.0, 0.0}, {0.0, 0.0}, {30.0, 0.0}}, 60.0));
    const std::vector<core::PlanePoint> points{{0.0, 20.0}, {0.0, 20.001}, {-49.0, 0.0}, {-51.0, 0.0}};
    const PastTable past = FlightsPast(survey).at(points, core::Threads{1});
    EXPECT_NEAR(past.flights[0], 60.0 / 60.0, 1e-12) << "touched: no chord";
    EXPECT_EQ(past.flights[1], 0.0);
    EXPECT_NEAR(past.flights[2], 60.0 / (60.0 + 2.0 * reach), 1e-12) << "in its line: the whole disc";
    EXPECT_EQ(past.flights[3], 0.0);
    EXPECT_EQ(past.seen, (std::vector<std::uint32_t>{1, 0, 1, 0}));
}

TEST(FlightsPast, MetresAreThoseWithinTenMetres) {
    survey::Survey survey = one_watch();
    survey.flights.push_back(flight_along({{-30.0, 0.0}, {30.0, 0.0}}, 120.0));
    const std::vector<core::PlanePoint> points{{0.0, 6.0}, {30.0, 0.0}, {0.0, 10.5}};
    const PastTable past = FlightsPast(survey).at(points, core::Threads{1});
    EXPECT_NEAR(past.metres[0], 2.0 * 16.0, 1e-9) << "a chord of 16 m, two metres flown to each of path";
    EXPECT_NEAR(past.metres[1], 2.0 * 10.0, 1e-9);
    EXPECT_EQ(past.metres[2], 0.0);
}

// The mean of the half-normal along the course, by sums of 10,000 places.
TEST(FlightsPast, HoursAreTheMeanAlongTheCourse) {
    survey::Survey survey = one_watch();
    const double slant = std::numbers::sqrt2 / 2.0;
    survey.flights.push_back(flight_along(
        {{50.0 - 40.0 * slant, 10.0 - 40.0 * slant}, {50.0 + 40.0 * slant, 10.0 + 40.0 * slant}}, 100.0));
    const std::vector<core::PlanePoint> points{{55.0, 15.0}};
    const PastTable past = FlightsPast(survey).at(points, core::Threads{1});
    const double half = 40.0 + reach;
    double sum = 0.0;
    constexpr int places = 10000;
    for (int i = 0; i < places; ++i) {
        const double away = half * (2.0 * i + 1.0 - places) / places;
        const core::PlanePoint p{55.0 + away * slant, 15.0 + away * slant};
        sum += std::exp(-core::squared_distance(p, {0.0, 0.0}) / (2.0 * 40.0 * 40.0));
    }
    EXPECT_NEAR(past.hours[0], sum / places, 1e-6);
}

// A simulated hour 4,000 times over: flights straight along a line, noticed with the half-normal of their
// nearest place, told at a place drawn along their way, with a piece of two ranges about it.
TEST(FlightsPast, RatesAreTrueForLongFlightsWhereverTheTreeStands) {
    survey::Survey survey = one_watch();
    std::mt19937 random(7);
    std::uniform_real_distribution<double> chance(0.0, 1.0);
    constexpr double range = 40.0, aside = 25.0;
    std::normal_distribution<double> along(0.0, range);
    constexpr int flights = 4000;
    for (int i = 0; i < flights; ++i) {
        if (chance(random) >= std::exp(-aside * aside / (2.0 * range * range))) continue;
        const double told = along(random);
        survey.flights.push_back(flight_along({{told - range, aside}, {told + range, aside}},
                                              std::sqrt(2.0 * std::numbers::pi) * range));
    }
    const std::vector<core::PlanePoint> points{{0.0, 30.0}, {35.0, 20.0}, {-70.0, 25.0}, {90.0, 25.0}};
    const PastTable past = FlightsPast(survey).at(points, core::Threads{1});
    for (std::size_t i = 0; i < points.size(); ++i)
        EXPECT_NEAR(past.flights[i] / past.hours[i], flights, 0.1 * flights) << points[i].easting;
}

// Spots without a way stand for what the disc holds: even flight of d metres per m² and hour brings 40 d
// flights within 20 m (area over mean chord, Crofton).
TEST(FlightsPast, EvenSpotsGiveFortyTimesTheDensity) {
    survey::Survey survey = one_watch();
    survey.watches[0].range = core::Metres(1000.0);
    constexpr double metres = 100.0;
    for (int x = -40; x < 40; ++x)
        for (int y = -40; y < 40; ++y)
            survey.flights.push_back(flight_along({{x + 0.5, y + 0.5}}, metres));
    const PastTable past =
        FlightsPast(survey).at(std::vector<core::PlanePoint>{{0.0, 0.0}}, core::Threads{1});
    EXPECT_NEAR(past.flights[0] / past.hours[0], 40.0 * metres, 0.01 * 40.0 * metres);
}

TEST(FlightsPast, WhatWasOnlyHeardIsEvenInItsView) {
    survey::Survey survey = one_watch();
    survey::Flight heard = flight_along({{0.0, 0.0}}, 100.0);
    heard.placed = false;
    survey.flights.push_back(heard);
    const std::vector<core::PlanePoint> points{{0.0, 0.0}, {60.0, 0.0}};
    const PastTable past = FlightsPast(survey).at(points, core::Threads{1});
    EXPECT_NEAR(past.flights[0] / past.hours[0], past.flights[1] / past.hours[1], 1e-12);
    EXPECT_NEAR(past.flights[0] / past.hours[0], 40.0 * 100.0 / (2.0 * std::numbers::pi * 1600.0), 1e-9);
}

}  // namespace
}  // namespace roostward::activity
