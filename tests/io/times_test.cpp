#include "roostward/io/times.hpp"

#include <gtest/gtest.h>

#include <string>
#include <string_view>

#include "roostward/core/error.hpp"

namespace roostward::io {
namespace {

/// What the text says, as "date time offset", or the kind of trouble.
std::string told(std::string_view text, DateOrder order = DateOrder::unknown) {
    const Reading<WrittenTime> reading = read_time(text, order);
    const WrittenTime* time = value_in(reading);
    if (time == nullptr) return trouble_in(reading).kind;
    std::string out = time->date ? core::to_text(*time->date) : "";
    if (time->time_of_day) out += " " + std::to_string(time->time_of_day->count());
    if (time->offset) out += " " + std::to_string(time->offset->count());
    return out;
}

std::string moment(const std::string& zone, std::string_view text) {
    const SiteClock clock(zone);
    const Reading<WrittenTime> written = read_time(text, DateOrder::unknown);
    const Reading<Moment> reading = clock.moment_of(*value_in(written));
    const Moment* found = value_in(reading);
    if (found == nullptr) return trouble_in(reading).kind;
    return core::to_text(found->instant) + " " + core::to_text(found->evening) +
           (found->repeated ? " repeated" : "");
}

// ISO 8601-1:2019: the forms of 5.2 to 5.4, and 24:00 as the end of the day (RFC 3339 has the same but
// 24:00).
TEST(WrittenTimes, FollowIso8601) {
    EXPECT_EQ(told("2026-06-12T21:04"), "2026-06-12 75840000");
    EXPECT_EQ(told("2026-06-12 21:04:30.25Z"), "2026-06-12 75870250 0");
    EXPECT_EQ(told("2026-06-12T21:04:30,5+01:00"), "2026-06-12 75870500 60");
    EXPECT_EQ(told("20260612T210430-0530"), "2026-06-12 75870000 -330");
    EXPECT_EQ(told("2026-06-12T21:04+02"), "2026-06-12 75840000 120");
    EXPECT_EQ(told("2026-06-12T24:00"), "2026-06-12 86400000");
    EXPECT_EQ(told("2026-06-12"), "2026-06-12");
    EXPECT_EQ(told("21:04"), " 75840000");
    EXPECT_EQ(told("2026-02-30"), "no such date");
    EXPECT_EQ(told("2028-02-29"), "2028-02-29");
    EXPECT_EQ(told("2026-06-12T24:01"), "unreadable time");
    EXPECT_EQ(told("2026-06-12T21:60"), "unreadable time");
    EXPECT_EQ(told("2026-06-12T21:04 or so"), "unreadable time");
}

TEST(WrittenTimes, AreReadInEverydayForms) {
    EXPECT_EQ(told("9:04 pm"), " 75840000");
    EXPECT_EQ(told("9 p.m."), " 75600000");
    EXPECT_EQ(told("12:10 am"), " 600000");
    EXPECT_EQ(told("12 pm"), " 43200000");
    EXPECT_EQ(told("13 pm"), "unreadable time");
    EXPECT_EQ(told("21.04"), " 75840000");
    EXPECT_EQ(told("21h04"), " 75840000");
    EXPECT_EQ(told("2104"), " 75840000");
    EXPECT_EQ(told("12.06.2026"), "2026-06-12");
    EXPECT_EQ(told("12 June 2026"), "2026-06-12");
    EXPECT_EQ(told("June 12, 2026 9:04 pm"), "2026-06-12 75840000");
    EXPECT_EQ(told("12-Jun-26 21:04"), "2026-06-12 75840000");
    EXPECT_EQ(told("half past nine"), "unreadable time");
}

TEST(WrittenTimes, DayAndMonthAreNotGuessed) {
    EXPECT_EQ(told("05/06/2026"), "day or month first?");
    EXPECT_EQ(told("05/06/2026", DateOrder::day_first), "2026-06-05");
    EXPECT_EQ(told("05/06/2026", DateOrder::month_first), "2026-05-06");
    EXPECT_EQ(told("25/06/2026"), "2026-06-25");
    EXPECT_EQ(told("06/25/2026"), "2026-06-25");
    EXPECT_EQ(order_shown_by("25/06/2026"), std::optional(DateOrder::day_first));
    EXPECT_EQ(order_shown_by("06/25/2026 21:04"), std::optional(DateOrder::month_first));
    EXPECT_EQ(order_shown_by("05/06/2026"), std::optional(DateOrder::unknown));
    EXPECT_FALSE(order_shown_by("2026-06-05"));
}

// IANA time zone database, Europe/London: clocks go forward on 2026-03-29 at 01:00 UTC and back on 2026-10-25
// at 01:00 UTC. America/New_York: UTC-4 in June. Asia/Kolkata: UTC+5:30.
TEST(SiteClocks, KnowRepeatedAndSkippedHours) {
    EXPECT_EQ(moment("Europe/London", "2026-06-12T21:04"), "2026-06-12T20:04:00Z 2026-06-12");
    EXPECT_EQ(moment("Europe/London", "2026-10-25T01:30"), "2026-10-25T00:30:00Z 2026-10-24 repeated");
    EXPECT_EQ(moment("Europe/London", "2026-10-25T01:30+00:00"), "2026-10-25T01:30:00Z 2026-10-24");
    EXPECT_EQ(moment("Europe/London", "2026-03-29T01:30"), "skipped hour");
    EXPECT_EQ(moment("Europe/London", "2026-03-29T02:00"), "2026-03-29T01:00:00Z 2026-03-28");
    EXPECT_EQ(moment("America/New_York", "2026-06-12T21:04"), "2026-06-13T01:04:00Z 2026-06-12");
    EXPECT_EQ(moment("Asia/Kolkata", "2026-06-12T00:10"), "2026-06-11T18:40:00Z 2026-06-11");
    EXPECT_EQ(moment("Europe/London", "2026-06-12T24:00"), "2026-06-12T23:00:00Z 2026-06-12");
}

// Our own rule: an evening runs from local noon to local noon and is named by its first date.
TEST(SiteClocks, EveningsRunFromNoonToNoon) {
    EXPECT_EQ(moment("Europe/London", "2026-06-12T11:59"), "2026-06-12T10:59:00Z 2026-06-11");
    EXPECT_EQ(moment("Europe/London", "2026-06-12T12:00"), "2026-06-12T11:00:00Z 2026-06-12");
    EXPECT_EQ(moment("", "2026-06-12T23:30-07:00"), "2026-06-13T06:30:00Z 2026-06-12");
    EXPECT_EQ(moment("America/Vancouver", "2026-06-13T06:30Z"), "2026-06-13T06:30:00Z 2026-06-12");
}

TEST(SiteClocks, RefuseWhatNoClockShowed) {
    EXPECT_EQ(moment("Europe/London", "2038-01-01T21:00"), "date too late");
    EXPECT_EQ(moment("Europe/London", "1901-12-13T20:45"), "clock not set");
    EXPECT_EQ(moment("Europe/London", "2037-12-31T21:00"), "2037-12-31T21:00:00Z 2037-12-31");
    try {
        const SiteClock clock("Europe/Londinium");
        FAIL();
    } catch (const core::Error& error) {
        EXPECT_EQ(error.fault(), core::Fault::site_file);
        EXPECT_NE(std::string(error.what()).find("Europe/London"), std::string::npos);
    }
}

// IANA time zone database, as above; Asia/Kolkata is 5:30 ahead, America/St_Johns 2:30 behind in June.
TEST(SiteClocks, ShowInstantsWithTheirOffset) {
    const auto shown = [](const char* zone, const char* instant) {
        const SiteClock clock(zone);
        const Reading<Moment> moment = clock.moment_of(*value_in(read_time(instant, DateOrder::unknown)));
        return clock.local_text(value_in(moment)->instant);
    };
    EXPECT_EQ(shown("Europe/London", "2026-06-12T20:04:00Z"), "2026-06-12T21:04:00+01:00");
    EXPECT_EQ(shown("Europe/London", "2026-10-25T00:30:00Z"), "2026-10-25T01:30:00+01:00");
    EXPECT_EQ(shown("Europe/London", "2026-10-25T01:30:00Z"), "2026-10-25T01:30:00+00:00");
    EXPECT_EQ(shown("Asia/Kolkata", "2026-06-12T20:04:00Z"), "2026-06-13T01:34:00+05:30");
    EXPECT_EQ(shown("America/St_Johns", "2026-06-12T20:04:00Z"), "2026-06-12T17:34:00-02:30");
    EXPECT_EQ(shown("", "2026-06-12T20:04:00Z"), "2026-06-12T20:04:00+00:00");
}

TEST(SiteClocks, TellWhenTheyShowATime) {
    const SiteClock london("Europe/London");
    const auto at = [&](unsigned month, unsigned day, int hour, int minute) {
        return core::to_text(london.instant_at(std::chrono::year(2026) / month / day,
                                               std::chrono::hours(hour) + std::chrono::minutes(minute)));
    };
    EXPECT_EQ(at(6, 12, 21, 4), "2026-06-12T20:04:00Z");
    EXPECT_EQ(at(6, 12, 24, 30), "2026-06-12T23:30:00Z") << "half past midnight";
    EXPECT_EQ(at(10, 24, 25, 30), "2026-10-25T00:30:00Z") << "stands twice on the clock: the first";
    EXPECT_EQ(at(10, 25, 18, 0), "2026-10-25T18:00:00Z");
    EXPECT_EQ(at(3, 29, 1, 30), "2026-03-29T01:30:00Z") << "skipped: what comes so long after midnight";
    EXPECT_EQ(at(3, 29, 2, 30), "2026-03-29T01:30:00Z");
}

// IANA time zone database, as above: London, June to November 2026; before 1970 India had the same hours.
TEST(SiteClocks, TellTheirOffsetsAndChanges) {
    const auto told = [](const char* zone) {
        const core::Instant june(std::chrono::sys_days(std::chrono::year(2026) / 6 / 12));
        std::vector<std::string> texts;
        for (const core::ClockOffset& o : SiteClock(zone).offsets(june, june + std::chrono::days(150)))
            texts.push_back(core::to_text(o.from) + " " + std::to_string(o.before.count()) + " " +
                            std::to_string(o.after.count()) + " " + o.name +
                            (o.daylight_saving ? " saving" : ""));
        return texts;
    };
    EXPECT_EQ(told("Europe/London"), (std::vector<std::string>{"2025-10-26T01:00:00Z 3600 0 GMT",
                                                               "2026-03-29T01:00:00Z 0 3600 BST saving",
                                                               "2026-10-25T01:00:00Z 3600 0 GMT"}));
    EXPECT_EQ(told("Asia/Kolkata"), std::vector<std::string>{"1970-01-01T00:00:00Z 19800 19800 IST"});
    EXPECT_EQ(told(""), std::vector<std::string>{"1970-01-01T00:00:00Z 0 0 UTC"});
}

}  // namespace
}  // namespace roostward::io
