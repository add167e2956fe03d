#include "roostward/survey/evening_hours.hpp"

#include <gtest/gtest.h>

#include "roostward/survey/survey.hpp"

namespace roostward::survey {
namespace {

using core::Metres;
using std::chrono::minutes;

const core::Date ninth{std::chrono::year(2026), std::chrono::month(6), std::chrono::day(9)};

/// The sun sets at 20:30.
core::Instant sunset() {
    return core::Instant(std::chrono::sys_days(ninth)) + std::chrono::hours(20) + minutes(30);
}

Watch watch(int from_sunset, int to_sunset, geo::Line path = {{0, 0}}) {
    Watch watch;
    watch.row = 2;
    watch.name = "A";
    watch.path = std::move(path);
    watch.start = sunset() + minutes(from_sunset);
    watch.end = sunset() + minutes(to_sunset);
    watch.evening = {ninth};
    watch.range = Metres(40);
    return watch;
}

struct Evening {
    core::Records<Pass> passes{"passes.csv", "passes", {}, 0};
    core::Records<Track> tracks{"tracks.csv", "tracks", {}, 0};
    core::Records<Watch> watches{"watches.csv", "watches", {}, 0};
    Settings settings;

    void add_pass(int from_sunset) {
        Pass pass;
        pass.row = passes.rows.size() + 2;
        pass.watch = "A";
        pass.position = {10, 0};
        pass.time = sunset() + minutes(from_sunset);
        pass.evening = {ninth};
        passes.rows.push_back(pass);
    }
    [[nodiscard]] Matched match() const {
        return survey::match({passes, tracks, {}, watches, {}}, {}, settings,
                             [](core::Evening) { return sunset(); });
    }
};

std::vector<std::string> kinds(const Matched& seen) {
    std::vector<std::string> kinds;
    for (const auto& finding : seen.findings)
        kinds.push_back(finding.kind);
    return kinds;
}

// From 15 min before sunset to 90 min after it (common practice, from memory), both ends inclusive.
TEST(EveningHours, CutWatchesAndLeaveOutWhatWasSeenThen) {
    Evening evening;
    evening.watches.rows = {watch(-45, 120)};
    for (const int minute : {-16, -15, 90, 91})
        evening.add_pass(minute);
    const Matched seen = evening.match();
    ASSERT_EQ(seen.survey.watches.size(), 1U);
    EXPECT_DOUBLE_EQ(seen.survey.watches[0].hours().value(), 1.75);
    EXPECT_EQ(seen.survey.flights.size(), 2U);
    EXPECT_EQ(seen.set_aside("passes"), 2U);
    EXPECT_EQ(kinds(seen), (std::vector<std::string>{"hours not counted", "daylight time",
                                                     "outside the hours that count"}));
    EXPECT_EQ(seen.findings[0].value, "1.0 h of 1 watch");
    EXPECT_NE(seen.findings[1].sentence.find("the sun set at 2026-06-09T20:30"), std::string::npos)
        << seen.findings[1].sentence;
    evening.settings.hours.all = true;
    EXPECT_EQ(evening.match().survey.flights.size(), 4U);
    EXPECT_TRUE(evening.match().findings.empty());
}

TEST(EveningHours, SetAsideAWatchInDaylight) {
    Evening evening;
    evening.watches.rows = {watch(-15, 60), watch(-720, -600)};
    evening.watches.rows[1].row = 3;
    evening.tracks.rows.push_back({4, {{0, 0}, {30, 0}}, sunset() - minutes(700), {ninth}, "A", 1.0, {}});
    const Matched seen = evening.match();
    EXPECT_EQ(seen.survey.watches.size(), 1U);
    EXPECT_EQ(seen.set_aside("watches"), 1U);
    EXPECT_EQ(seen.set_aside("tracks"), 1U);
    EXPECT_EQ(seen.findings[0].place.row, 3U);
    EXPECT_NE(seen.findings[0].sentence.find("if the clock"), std::string::npos) << seen.findings[0].sentence;
}

// 100 m in 100 min, of which minutes 30 to 70 count.
TEST(EveningHours, CutAWalkWhereTheWalkerWasThen) {
    const Watch walk = watch(0, 100, {{0, 0}, {0, 40}, {60, 40}});
    const auto part = part_in(walk, {sunset(), sunset() + minutes(30), sunset() + minutes(70)});
    ASSERT_TRUE(part);
    EXPECT_EQ(part->path, (geo::Line{{0, 30}, {0, 40}, {30, 40}}));
    const auto all = part_in(walk, {sunset(), sunset() - minutes(30), sunset() + minutes(100)});
    EXPECT_EQ(all->path, walk.path);
    EXPECT_FALSE(part_in(walk, {sunset(), sunset() + minutes(100), sunset() + minutes(110)}));
}

TEST(EveningHours, AllCountWhereTheSunDoesNotSet) {
    Evening evening;
    evening.watches.rows = {watch(-45, 120)};
    evening.add_pass(100);
    const Matched seen = survey::match({evening.passes, {}, {}, evening.watches, {}}, {}, evening.settings,
                                       [](core::Evening) { return std::optional<core::Instant>(); });
    EXPECT_EQ(seen.survey.flights.size(), 1U);
    EXPECT_TRUE(seen.findings.empty());
}

}  // namespace
}  // namespace roostward::survey
