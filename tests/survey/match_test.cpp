#include <gtest/gtest.h>

#include "roostward/core/error.hpp"
#include "roostward/survey/survey.hpp"
#include "survey/notes.hpp"

namespace roostward::survey {
namespace {

using core::Metres;

core::Date june(unsigned day) {
    return {std::chrono::year(2026), std::chrono::month(6), std::chrono::day(day)};
}

core::Instant at(unsigned day, int hour, int minute) {
    return core::Instant(std::chrono::sys_days(june(day))) + std::chrono::hours(hour) +
           std::chrono::minutes(minute);
}

Watch watch(std::string name, core::PlanePoint station, unsigned day, int from_hour, int to_hour) {
    Watch watch;
    watch.row = 2;
    watch.name = std::move(name);
    watch.path = {station};
    watch.start = at(day, from_hour, 0);
    watch.end = at(day, to_hour, 0);
    watch.evening = {june(day)};
    watch.range = Metres(40.0);
    return watch;
}

Pass pass(std::string seen_from, core::PlanePoint place, unsigned day, int hour, int minute) {
    Pass pass;
    pass.row = 7;
    pass.watch = std::move(seen_from);
    pass.position = place;
    pass.time = at(day, hour, minute);
    pass.evening = {june(day)};
    return pass;
}

struct Notes {
    core::Records<Pass> passes{"passes.csv", "passes", {}, 0};
    core::Records<Track> tracks{"", "tracks", {}, 0};
    core::Records<Watch> watches{"watches.csv", "watches", {}, 0};
    Settings settings;
    [[nodiscard]] Matched match() const {
        return survey::match({passes, tracks, {}, watches, {}}, {}, settings);
    }
};

TEST(Match, TakesTheNamedWatchOfThatEvening) {
    Notes notes;
    notes.watches.rows = {watch("A", {0, 0}, 1, 21, 22), watch("A", {0, 0}, 2, 21, 22)};
    notes.passes.rows = {pass("A", {10, 0}, 2, 21, 30)};
    const Matched seen = notes.match();
    ASSERT_EQ(seen.survey.flights.size(), 1U);
    EXPECT_EQ(seen.survey.flights[0].watch, 1U);
    EXPECT_EQ(seen.survey.flights[0].evening, 1U);
    EXPECT_EQ(seen.survey.evenings.size(), 2U) << "an evening without a pass is a true zero";
    const double in_view = 40.0 * std::sqrt(2.0 * std::numbers::pi);
    EXPECT_NEAR(seen.survey.flights[0].length.value(), 1.0 / (1.0 / in_view + 1.0 / 600.0), 1e-9)
        << "what a half-normal view has of a flight straight past it, where flights end after 600 m";
}

TEST(Match, WithoutANameTakesTheNearestInRangesAtThatTime) {
    Notes notes;
    notes.watches.rows = {watch("A", {0, 0}, 1, 21, 22), watch("B", {100, 0}, 1, 21, 22),
                          watch("C", {60, 0}, 1, 22, 23)};
    notes.passes.rows = {pass("", {70, 0}, 1, 21, 30)};
    const Matched seen = notes.match();
    ASSERT_EQ(seen.survey.flights.size(), 1U);
    EXPECT_EQ(seen.survey.watches[*seen.survey.flights[0].watch].name, "B");
}

TEST(Match, ThreeRangesAreInclusive) {
    Notes notes;
    notes.watches.rows = {watch("A", {0, 0}, 1, 21, 22)};
    notes.passes.rows = {pass("", {120, 0}, 1, 21, 30), pass("", {120.01, 0}, 1, 21, 30)};
    const Matched seen = notes.match();
    EXPECT_EQ(seen.survey.flights.size(), 1U);
    EXPECT_EQ(seen.set_aside("passes"), 1U);
    ASSERT_EQ(seen.findings.size(), 1U);
    EXPECT_EQ(seen.findings[0].kind, "outside any watch");
}

TEST(Match, SetsAsideWhatNobodyWatched) {
    Notes notes;
    notes.watches.rows = {watch("A", {0, 0}, 1, 21, 22)};
    notes.passes.rows = {pass("A", {1, 0}, 1, 23, 30), pass("nobody", {1, 0}, 1, 21, 30),
                         pass("", {1, 0}, 1, 2, 0)};
    const Matched seen = notes.match();
    EXPECT_TRUE(seen.survey.flights.empty());
    EXPECT_EQ(seen.set_aside("passes"), 3U);
    EXPECT_EQ(seen.findings.size(), 3U) << "each set-aside row has its finding";
}

TEST(Match, AWetWatchMakesTheEveningPoor) {
    Notes notes;
    notes.watches.rows = {watch("A", {0, 0}, 1, 21, 22), watch("B", {0, 0}, 2, 21, 22),
                          watch("C", {0, 0}, 2, 21, 22)};
    notes.watches.rows[2].rain = true;
    notes.passes.rows = {pass("A", {1, 0}, 1, 21, 5), pass("B", {1, 0}, 2, 21, 5)};
    const Matched seen = notes.match();
    EXPECT_EQ(seen.survey.evenings.size(), 1U);
    EXPECT_EQ(seen.set_aside("watches"), 2U);
    EXPECT_EQ(seen.set_aside("passes"), 1U);
    notes.settings.keep_poor_weather = true;
    EXPECT_EQ(notes.match().survey.flights.size(), 2U);
}

// The cut-offs are those of the trade, from memory: 10 °C and 5 m/s still count.
TEST(Match, WeatherAtItsLimitsCounts) {
    Notes notes;
    notes.watches.rows = {watch("A", {0, 0}, 1, 21, 22)};
    notes.watches.rows[0].temperature = core::Celsius(10.0);
    notes.watches.rows[0].wind = core::MetresPerSecond(5.0);
    EXPECT_EQ(notes.match().set_aside("watches"), 0U);
    notes.watches.rows[0].temperature = core::Celsius(9.9);
    try {
        (void)notes.match();
        ADD_FAILURE() << "no watch is left";
    } catch (const core::Error& error) {
        EXPECT_NE(
            std::string(error.what()).find("row 2: the evening of 2026-06-01 was poor weather (9.9 °C)"),
            std::string::npos)
            << error.what();
    }
}

TEST(Match, AHeardPassHasNoPlace) {
    Notes notes;
    notes.watches.rows = {watch("A", {0, 0}, 1, 21, 22)};
    notes.passes.rows = {pass("A", {0, 0}, 1, 21, 5), pass("A", {5, 0}, 1, 21, 6)};
    notes.passes.rows[0].place_of = PlaceOf::recorder;
    notes.passes.rows[1].accuracy = Metres(41.0);
    const Matched seen = notes.match();
    ASSERT_EQ(seen.survey.flights.size(), 2U);
    EXPECT_FALSE(seen.survey.flights[0].placed);
    EXPECT_FALSE(seen.survey.flights[1].placed) << "an accuracy above the range says as little";
    EXPECT_EQ(notes::kinds(seen), (std::vector<std::string>{"accuracy above range", "heard somewhere in view",
                                                            "no flight has a place"}));
}

TEST(Match, APassInSquaresHasTheirStep) {
    Notes notes;
    notes.watches.rows = {watch("A", {0, 0}, 1, 21, 22)};
    notes.passes.rows = {pass("A", {1, 0}, 1, 21, 5), pass("A", {1, 0}, 1, 21, 6)};
    notes.passes.rows[1].step = Metres(25.0);
    notes.passes.step = Metres(2.0);
    const Matched seen = notes.match();
    EXPECT_EQ(seen.survey.flights.at(0).step, Metres(2.0));
    EXPECT_EQ(seen.survey.flights.at(1).step, Metres(25.0));
}

TEST(Match, ABearingMakesAStraightPieceAboutThePlace) {
    Notes notes;
    notes.watches.rows = {watch("A", {0, 0}, 1, 21, 22)};
    notes.passes.rows = {pass("A", {10, 20}, 1, 21, 5)};
    notes.passes.rows[0].bearing = core::Degrees(90.0);
    const auto path = notes.match().survey.flights.at(0).path;
    ASSERT_EQ(path.size(), 2U);
    EXPECT_NEAR(path[0].easting, -10.0, 1e-9);
    EXPECT_NEAR(path[1].easting, 30.0, 1e-9);
    EXPECT_NEAR(path[1].northing, 20.0, 1e-9);
}

TEST(Match, WithoutWatchesEveryEveningCountsAlike) {
    Notes notes;
    notes.watches.file.clear();
    notes.passes.rows = {pass("", {0, 0}, 1, 21, 5), pass("", {100, 0}, 2, 21, 5),
                         pass("", {0, 100}, 2, 21, 5)};
    const Matched seen = notes.match();
    EXPECT_TRUE(seen.survey.even_effort());
    EXPECT_EQ(seen.survey.evenings.size(), 2U);
    EXPECT_EQ(seen.survey.flights[0].length, Metres(30.0));
    // Steiner's formula for a widened convex polygon: area + perimeter · 50 + π · 50².
    EXPECT_NEAR(geo::area_of(seen.survey.even_ground).value(), 5000.0 + 341.4214 * 50.0 + 7853.98, 120.0);
}

TEST(Match, EmergenceIsASignOfARoostWhereverItCounts) {
    Notes notes;
    notes.watches.rows = {watch("A", {0, 0}, 1, 21, 22)};
    notes.passes.rows = {pass("A", {5, 5}, 1, 23, 50)};
    notes.passes.rows[0].behaviour = Behaviour::emerging;
    const Matched seen = notes.match();
    EXPECT_EQ(seen.set_aside("passes"), 1U);
    ASSERT_EQ(seen.roost_signs.size(), 1U);
}

}  // namespace
}  // namespace roostward::survey
