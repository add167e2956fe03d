#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "activity/examples.hpp"
#include "roostward/activity/bandwidth.hpp"
#include "roostward/activity/flight_density.hpp"
#include "roostward/activity/flight_lines.hpp"
#include "roostward/core/random.hpp"

namespace roostward {
namespace {

using core::Metres;
using core::PlanePoint;
using survey::Survey;

/// 60 flights counted along a straight creek past a watch of 40 m range, in two hours.
Survey by_the_creek() {
    core::Records<survey::Tally> tallies{"tallies", "tallies", {}, 1};
    tallies.rows.push_back({});
    tallies.rows[0].count = 60.0;
    tallies.rows[0].along = "creek";
    const core::Records<survey::Watch> watches{
        "watches", "watches", {examples::watch({{0, 20}}, 2.0, 40.0)}, 1};
    const core::Records<survey::Route> routes{"routes", "routes", {{1, "creek", {{-400, 0}, {400, 0}}}}, 1};
    return survey::match({{}, {}, tallies, watches, routes}, {}, {}).survey;
}

// What was noticed of an even stream of flights must give that stream back: one noticed with the half-normal
// g of its nearest point has ∫g / max g metres in effective view. 60 noticed in 2 h past a watch 20 m aside
// are 60 / (2·e^(−20²/2·40²)) flights an hour, spread across by the kernel.
TEST(Tally, GivesBackAnEvenStream) {
    const Metres h{4.0};
    Survey survey = by_the_creek();
    for (auto& flight : survey.flights)
        flight.accuracy = Metres(0.0);  // else flights and effort are smoothed unlike each other
    const activity::FlightDensity density(survey, {h, core::Hours(0.0)}, {});
    const std::vector<PlanePoint> along{{-50, 0}, {-20, 0}, {0, 0}, {35, 0}, {60, 0}};
    const auto there = density.summarise(density.at(along, core::Threads{1}));
    const double an_hour = 60.0 / (2.0 * std::exp(-20.0 * 20.0 / (2.0 * 40.0 * 40.0)));
    const double across = 1.0 / (std::sqrt(2.0 * std::numbers::pi) * h.value());
    for (const auto& place : there)
        EXPECT_NEAR(place.flight_density / (an_hour * across), 1.0, 0.01);
}

TEST(Tally, ShowsNoFlightLine) {
    Survey survey = by_the_creek();
    const activity::Bandwidth bandwidth{Metres(6.0), core::Hours(0.25)};
    EXPECT_TRUE(activity::find_flight_lines(survey, bandwidth, {}, core::Threads{1}).empty());
    for (auto& flight : survey.flights)
        flight.noted_in = survey::NotedIn::tracks;
    EXPECT_FALSE(activity::find_flight_lines(survey, bandwidth, {}, core::Threads{1}).empty())
        << "the same flights, had they been followed";
}

TEST(Tally, OfTheSameLineEveryEveningDoesNotNarrowTheBandwidth) {
    Survey survey;
    for (std::uint32_t n = 0; n < 3; ++n) {
        Survey evening = by_the_creek();
        survey.evenings.push_back(examples::evening(n + 1));
        for (auto& flight : evening.flights) {
            flight.evening = flight.watch.emplace(n);
            survey.flights.push_back(flight);
        }
        survey.watches.push_back(evening.watches[0]);
        survey.watch_evening.push_back(n);
    }
    const auto only = activity::choose_bandwidth(survey, {}, core::Threads{1});
    EXPECT_EQ(only.h_by, activity::FoundBy::usual) << "it says nothing of how far flights spread";
    core::RandomStream random(5, "passes");
    for (std::uint32_t i = 0; i < 90; ++i) {
        survey::Flight pass =
            examples::flight({{60.0 * random.normal(), 25.0 * random.normal()}}, 100.0, 1.0, i % 3);
        pass.watch = i % 3;
        survey.flights.push_back(pass);
    }
    const auto both = activity::choose_bandwidth(survey, {}, core::Threads{1});
    EXPECT_EQ(both.h_by, activity::FoundBy::evenings);
    EXPECT_EQ(both.search->h_bound, activity::Bound::none);
    EXPECT_GT(both.h, Metres(6.0));
}

TEST(HeardOnly, ShowsNoFlightLine) {
    Survey survey = examples::one_evening({}, {examples::watch({{0, 0}}, 2.0, 40.0)});
    for (int i = 0; i < 80; ++i) {
        survey.flights.push_back(examples::flight({{0, 0}}, 100.0));
        survey.flights.back().watch = 0;
        survey.flights.back().placed = false;
    }
    EXPECT_TRUE(
        activity::find_flight_lines(survey, {Metres(6.0), core::Hours(0.25)}, {}, core::Threads{1}).empty());
}

// Spread over the view in proportion to E_w, what is heard makes the density the same wherever one watch
// heard.
TEST(HeardOnly, IsEvenOverTheView) {
    Survey survey = examples::one_evening({examples::flight({{0, 0}}, 100.0, 7.0)},
                                          {examples::watch({{0, 0}}, 2.0, 40.0)});
    survey.flights[0].watch = 0;
    survey.flights[0].placed = false;
    const activity::FlightDensity density(survey, {Metres(6.0), core::Hours(0.0)}, {});
    const std::vector<PlanePoint> places{{0, 0}, {30, 0}, {-10, 70}};
    const double even = 700.0 / (2.0 * 2.0 * std::numbers::pi * 40.0 * 40.0);
    for (const auto& place : density.summarise(density.at(places, core::Threads{1})))
        EXPECT_NEAR(place.flight_density / even, 1.0, 1e-12);
}

}  // namespace
}  // namespace roostward
