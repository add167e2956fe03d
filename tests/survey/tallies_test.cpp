#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "survey/notes.hpp"

namespace roostward::survey {
namespace {

using namespace notes;
using Kinds = std::vector<std::string>;

/// A straight creek past a watch.
Notes by_the_creek() {
    Notes notes;
    notes.watches.rows = {watch("weir", {0, 0}, 1)};
    notes.routes.rows = {{2, "Creek", {{-500, 0}, {500, 0}}}};
    notes.tallies.rows = {tally("weir", 12)};
    notes.tallies.rows[0].along = "creek";
    notes.tallies.rows[0].share = 0.75;
    return notes;
}

double animals(const Survey& survey, bool placed) {
    return std::accumulate(
        survey.flights.begin(), survey.flights.end(), 0.0,
        [&](double sum, const Flight& flight) { return flight.placed == placed ? sum + flight.count : sum; });
}

TEST(Tallies, MostlyAlongTheCreekAndTheRestInView) {
    const Matched seen = by_the_creek().match();
    EXPECT_NEAR(animals(seen.survey, true), 9.0, 1e-9);
    EXPECT_NEAR(animals(seen.survey, false), 3.0, 1e-9);
    EXPECT_EQ(kinds(seen), Kinds{"places from a drawing"});
    for (const Flight& flight : seen.survey.flights) {
        EXPECT_EQ(flight.noted_in, NotedIn::tallies);
        EXPECT_FALSE(flight.place_was_seen());
    }
}

// ∫ e^(−s²/2σ²) ds is twice the half-width of a strip, 25.0663 m for σ = 20 m (half-normal detection, texts
// of distance sampling); three σ hold 0.9973 of it.
TEST(Tallies, AFlightStandsForItsLineInEffectiveView) {
    Notes notes = by_the_creek();
    notes.watches.rows[0].range = core::Metres(20.0);
    EXPECT_NEAR(notes.match().survey.flights[0].length.value(), 2.0 * 25.0663 * 0.9973, 0.1);
    // A creek to the side is seen more dimly all along: as many metres for each flight that is noticed.
    notes.routes.rows[0].line = {{-500, 20}, {500, 20}};
    EXPECT_NEAR(notes.match().survey.flights[0].length.value(), 2.0 * 25.0663, 1.0);
    // A creek that ends at the watch has half of it.
    notes.routes.rows[0].line = {{0, 0}, {500, 0}};
    EXPECT_NEAR(notes.match().survey.flights[0].length.value(), 25.0663, 0.2);
}

TEST(Tallies, MetresLieOnTheLineAsDenseAsTheView) {
    const Matched seen = by_the_creek().match();
    const auto metres_at = [&](double easting) {
        double metres = 0.0;
        for (const Flight& flight : seen.survey.flights) {
            if (!flight.placed) continue;
            const auto [west, east] = std::minmax(flight.path[0].easting, flight.path[1].easting);
            if (west <= easting && easting < east) metres += flight.count * laid_on_path(flight);
        }
        return metres;
    };
    EXPECT_NEAR(metres_at(0.1), 9.0, 0.1) << "each flight is one metre flown for each metre of creek";
    EXPECT_NEAR(metres_at(40.1) / metres_at(0.1), std::exp(-0.5), 0.05);
    EXPECT_EQ(metres_at(125.0), 0.0);
}

TEST(Tallies, ASectorSeesNothingBehindIt) {
    Notes notes = by_the_creek();
    notes.watches.rows[0].view = FieldOfView{core::Degrees(90), core::Degrees(120)};
    for (const Flight& flight : notes.match().survey.flights)
        EXPECT_TRUE(!flight.placed || flight.path[0].easting >= -4.0);
}

TEST(Tallies, GoBothWaysUnlessTold) {
    Notes notes = by_the_creek();
    const auto westward = [](const Matched& seen) {
        double count = 0.0;
        for (const Flight& flight : seen.survey.flights)
            if (flight.placed && flight.path[1].easting < flight.path[0].easting) count += flight.count;
        return count;
    };
    EXPECT_NEAR(westward(notes.match()), 4.5, 1e-9);
    notes.tallies.rows[0].both_ways = false;
    EXPECT_EQ(westward(notes.match()), 0.0);
    EXPECT_NEAR(animals(notes.match().survey, true), 9.0, 1e-9);
}

TEST(Tallies, OfALineNobodyDrewOrSawCountInView) {
    Notes notes = by_the_creek();
    notes.tallies.rows[0].along = "hedge";
    EXPECT_NEAR(animals(notes.match().survey, false), 12.0, 1e-9);
    EXPECT_EQ(kinds(notes.match()), (Kinds{"unknown route", "no flight has a place"}));
    notes.tallies.rows[0].along = "creek";
    notes.routes.rows[0].line = {{-500, 121}, {500, 121}};
    EXPECT_NEAR(animals(notes.match().survey, false), 12.0, 1e-9);
    EXPECT_EQ(kinds(notes.match()), (Kinds{"route out of view", "no flight has a place"}));
}

TEST(Tallies, NeedOneWatch) {
    Notes notes = by_the_creek();
    notes.watches.rows.push_back(watch("weir", {0, 0}, 2));
    EXPECT_EQ(kinds(notes.match()), Kinds{"several watches fit"});
    EXPECT_EQ(notes.match().set_aside("tallies"), 1U);
    notes.tallies.rows[0].evening = core::Evening{june(2)};
    EXPECT_EQ(notes.match().survey.flights.at(0).evening, 1U);
    notes.tallies.rows[0].evening = core::Evening{june(3)};
    EXPECT_EQ(kinds(notes.match()), Kinds{"outside any watch"});
    notes.tallies.rows[0].evening.reset();
    notes.tallies.rows[0].watch.clear();
    notes.tallies.rows[0].start = at(2, 21, 0);
    notes.tallies.rows[0].end = at(2, 21, 30);
    EXPECT_EQ(notes.match().survey.flights.at(0).evening, 1U) << "the only watch of that time";
}

TEST(Tallies, CountInProportionToTheHoursWatched) {
    Notes notes = by_the_creek();
    notes.tallies.rows[0].start = at(1, 20, 0);
    notes.tallies.rows[0].end = at(1, 22, 0);
    const Matched seen = notes.match();
    EXPECT_NEAR(animals(seen.survey, true) + animals(seen.survey, false), 6.0, 1e-9);
    EXPECT_EQ(kinds(seen), (Kinds{"part of a tally", "places from a drawing"}));
}

TEST(Tallies, OfAWetEveningStayOut) {
    Notes notes = by_the_creek();
    notes.watches.rows.push_back(watch("bridge", {0, 0}, 2));
    notes.watches.rows[0].rain = true;
    const Matched seen = notes.match();
    EXPECT_EQ(seen.set_aside("tallies"), 1U);
    EXPECT_EQ(kinds(seen), (Kinds{"poor weather", "poor weather"}));
}

TEST(Tallies, OfNoFlightAreATrueZero) {
    Notes notes = by_the_creek();
    notes.tallies.rows[0].count = 0.0;
    const Matched seen = notes.match();
    EXPECT_TRUE(seen.survey.flights.empty());
    EXPECT_EQ(seen.set_aside("tallies"), 0U);
    EXPECT_EQ(seen.survey.watches.size(), 1U);
}

/// A gate of 10 m from south to north, 30 m east of the watch.
Notes at_a_gate() {
    Notes notes = by_the_creek();
    notes.tallies.rows[0].along.clear();
    notes.tallies.rows[0].share = 1.0;
    notes.tallies.rows[0].gate = {{30, -5}, {30, 5}};
    return notes;
}

TEST(Gates, AreCrossedStraightThroughTheMiddle) {
    const Matched seen = at_a_gate().match();
    EXPECT_NEAR(animals(seen.survey, true), 12.0, 1e-9);
    for (const Flight& flight : seen.survey.flights) {
        EXPECT_NEAR(flight.path[0].northing, 0.0, 1e-9);
        EXPECT_NEAR(flight.path[1].northing, 0.0, 1e-9);
        EXPECT_DOUBLE_EQ(flight.accuracy.value(), 10.0 / std::sqrt(12.0)) << "anywhere across the gate";
    }
    EXPECT_NEAR(seen.survey.flights[0].length.value(), 10.0, 0.1)
        << "the gate's own range has its width in effective view";
}

TEST(Gates, AreAllThatSuchAWatchWatched) {
    Notes notes = at_a_gate();
    const Matched only = notes.match();
    ASSERT_EQ(only.survey.watches.size(), 1U);
    EXPECT_EQ(only.survey.watches[0].path.front(), (core::PlanePoint{30, 0}));
    EXPECT_DOUBLE_EQ(only.survey.watches[0].range.value() * std::sqrt(2.0 * std::numbers::pi), 10.0);
    notes.passes.rows = {pass("weir", {-20, 30}, 1, 10)};
    const Matched both = notes.match();
    EXPECT_EQ(kinds(both), (Kinds{"tally beside passes", "places from a drawing"}));
    ASSERT_EQ(both.survey.watches.size(), 2U) << "one who noted passes as well watched the rest too";
    EXPECT_EQ(both.survey.watches[0].path.front(), (core::PlanePoint{0, 0}));
}

}  // namespace
}  // namespace roostward::survey
