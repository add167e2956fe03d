#include "roostward/report/evenings_files.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <sstream>

#include "two_evenings.hpp"

namespace roostward::report {
namespace {

using testing::two_evenings;

/// A clock an hour ahead of UTC.
std::string an_hour_ahead(core::Instant instant) {
    const std::string wall = core::to_text(instant + std::chrono::hours(1));
    return wall.substr(0, wall.size() - 1) + "+01:00";
}

SiteZone zone() {
    using std::chrono::hours;
    return {"Europe/London",
            an_hour_ahead,
            {{core::Instant(std::chrono::sys_days(std::chrono::year(2026) / 3 / 29) + hours(1)), hours(0),
              hours(1), "BST", true}}};
}

const core::Instant stamp{std::chrono::sys_days(std::chrono::year(2026) / 6 / 10)};

std::string calendar(const plan::EveningsPlan& plan) {
    return evenings_ics(plan, zone(), stamp);
}

/// Content lines, unfolded (RFC 5545, 3.1).
std::vector<std::string> content_lines(const std::string& text) {
    std::vector<std::string> lines;
    std::size_t begin = 0;
    for (std::size_t end = text.find("\r\n"); end != std::string::npos; end = text.find("\r\n", begin)) {
        const std::string line = text.substr(begin, end - begin);
        if (line.starts_with(' '))
            lines.back() += line.substr(1);
        else
            lines.push_back(line);
        begin = end + 2;
    }
    return lines;
}

std::vector<std::string> values_of(const std::string& text, const std::string& name) {
    std::vector<std::string> values;
    for (const std::string& line : content_lines(text))
        if (line.starts_with(name + ":") || line.starts_with(name + ";"))
            values.push_back(line.substr(name.size() + 1));
    return values;
}

using Texts = std::vector<std::string>;

std::string cell(const geo::Table& table, std::size_t row, const std::string& column) {
    const auto found = std::ranges::find(table.header, column);
    return found == table.header.end()
               ? "no column " + column
               : table.rows.at(row).at(static_cast<std::size_t>(found - table.header.begin()));
}

TEST(EveningsTable, IsARowAPost) {
    const geo::Table table = evenings_table(two_evenings(), an_hour_ahead);
    for (const char* column : {"evening", "team", "post", "start", "end", "lon", "lat", "look_deg",
                               "view_deg", "station", "why", "provisional"})
        EXPECT_EQ(std::ranges::count(table.header, column), 1) << column;
    ASSERT_EQ(table.rows.size(), 6U) << "two teams on two evenings, with two posts and one";
    for (const auto& row : table.rows)
        EXPECT_EQ(row.size(), table.header.size());
    EXPECT_EQ(cell(table, 1, "evening"), "2026-06-12");
    EXPECT_EQ(cell(table, 1, "team"), "1");
    EXPECT_EQ(cell(table, 1, "post"), "B");
    EXPECT_EQ(cell(table, 1, "start"), "2026-06-12T22:30:00+01:00");
    EXPECT_EQ(cell(table, 1, "end"), "2026-06-12T22:55:00+01:00");
    EXPECT_EQ(cell(table, 1, "look_deg"), "225");
    EXPECT_EQ(cell(table, 1, "view_deg"), "120");
    EXPECT_EQ(cell(table, 1, "station"), "oak");
    EXPECT_EQ(cell(table, 1, "provisional"), "no");
    EXPECT_EQ(cell(table, 0, "look_deg"), "") << "all round";
    EXPECT_EQ(cell(table, 5, "provisional"), "yes");
    EXPECT_NE(cell(table, 0, "why").find("11 trees"), std::string::npos);
}

TEST(EveningsTable, TellsTrueBearingsAndWholeMinutes) {
    plan::EveningsPlan plan = two_evenings();
    plan.meridian_convergence = core::Degrees(135.0);
    plan.to_come.evenings[0].rounds[0].posts[1].start += std::chrono::milliseconds(59'999);
    const geo::Table table = evenings_table(plan, an_hour_ahead);
    EXPECT_EQ(cell(table, 1, "look_deg"), "0") << "225° + 135°, and never 360";
    EXPECT_EQ(cell(table, 1, "start"), "2026-06-12T22:30:00+01:00");
}

// RFC 5545, 3.1: lines of at most 75 octets without the line break, CRLF; longer ones folded, and UTF-8 never
// parted. A site's name may hold anything.
TEST(EveningsCalendar, KeepsTheMustsOfLines) {
    plan::EveningsPlan plan = two_evenings();
    plan.settings.site_name = std::string(30, 'a');
    for (int i = 0; i < 40; ++i)
        plan.settings.site_name += "\u00fc\u6797";
    plan.settings.site_name += ",;\\\n\r\tBEGIN:VEVENT";
    const std::string text = calendar(plan);
    std::size_t begin = 0;
    for (std::size_t end = text.find('\n'); end != std::string::npos; end = text.find('\n', begin)) {
        ASSERT_GT(end, begin);
        EXPECT_EQ(text[end - 1], '\r');
        const std::string line = text.substr(begin, end - 1 - begin);
        EXPECT_LE(line.size(), 75U) << line;
        EXPECT_EQ(line.find('\r'), std::string::npos);
        const std::size_t first = line.starts_with(' ') ? 1 : 0;
        EXPECT_FALSE(line.size() > first && (static_cast<unsigned char>(line[first]) & 0xC0U) == 0x80U)
            << "a character parted: " << line;
        begin = end + 1;
    }
    EXPECT_EQ(begin, text.size());
    EXPECT_EQ(values_of(text, "BEGIN").size(), 9U)
        << "calendar, zone, its offset, three events, their alarms";
    EXPECT_TRUE(values_of(text, "LOCATION").at(0).ends_with("\\,\\;\\\\\\nBEGIN:VEVENT"))
        << values_of(text, "LOCATION").at(0);
}

// RFC 5545, 3.4, 3.6, 3.6.1, 3.6.5, 3.6.6: what a calendar, an event, a zone and an alarm must have, once.
TEST(EveningsCalendar, HasWhatRfc5545WantsOnce) {
    const std::string text = calendar(two_evenings());
    const Texts lines = content_lines(text);
    EXPECT_EQ(lines.front(), "BEGIN:VCALENDAR");
    EXPECT_EQ(lines.back(), "END:VCALENDAR");
    Texts open;
    std::map<std::string, std::multiset<std::string>> had;
    for (const std::string& line : lines) {
        const std::string name = line.substr(0, line.find_first_of(":;")),
                          value = line.substr(line.find(':') + 1);
        if (name == "BEGIN") {
            open.push_back(value);
            continue;
        }
        ASSERT_FALSE(open.empty()) << line;
        if (name != "END") {
            had[open.back()].insert(name);
            continue;
        }
        EXPECT_EQ(value, open.back());
        open.pop_back();
    }
    EXPECT_TRUE(open.empty());
    const auto count = [&](const char* part, const char* name) { return had[part].count(name); };
    EXPECT_EQ(count("VCALENDAR", "VERSION"), 1U);
    EXPECT_EQ(count("VCALENDAR", "PRODID"), 1U);
    EXPECT_EQ(count("VTIMEZONE", "TZID"), 1U);
    for (const char* name : {"DTSTART", "TZOFFSETFROM", "TZOFFSETTO"})
        EXPECT_EQ(count("DAYLIGHT", name), 1U) << name;
    for (const char* name :
         {"UID", "DTSTAMP", "DTSTART", "DTEND", "SUMMARY", "DESCRIPTION", "LOCATION", "GEO", "STATUS"})
        EXPECT_EQ(count("VEVENT", name), 3U) << name;
    for (const char* name : {"ACTION", "TRIGGER", "DESCRIPTION"})
        EXPECT_EQ(count("VALARM", name), 3U) << name;
}

TEST(EveningsCalendar, TellsTimesOnTheClockOfTheSite) {
    const std::string text = calendar(two_evenings());
    EXPECT_EQ(values_of(text, "DTSTART"),
              (Texts{"20260329T010000", "TZID=Europe/London:20260612T211500",
                     "TZID=Europe/London:20260619T211500", "TZID=Europe/London:20260626T211500"}))
        << "the first is when the zone's offset began, by the clock until then";
    EXPECT_EQ(values_of(text, "DTEND").at(0), "TZID=Europe/London:20260612T230000");
    EXPECT_EQ(values_of(text, "TZOFFSETFROM"), Texts{"+0000"});
    EXPECT_EQ(values_of(text, "TZOFFSETTO"), Texts{"+0100"});
    EXPECT_EQ(values_of(text, "DTSTAMP"), Texts(3, "20260610T000000Z"));
    EXPECT_EQ(values_of(text, "STATUS"), (Texts{"CONFIRMED", "CONFIRMED", "TENTATIVE"}));
}

// RFC 5545, 3.8.4.7: globally unique, and the same again, so that a calendar mends an event and adds none.
TEST(EveningsCalendar, HasUidsThatStayWithTheDate) {
    plan::EveningsPlan plan = two_evenings();
    const Texts uids = values_of(calendar(plan), "UID");
    EXPECT_EQ(std::set(uids.begin(), uids.end()).size(), 3U);
    plan.to_come.evenings[0].begin += std::chrono::minutes(3);
    plan.to_come.evenings.erase(plan.to_come.evenings.begin() + 1);
    EXPECT_EQ(values_of(calendar(plan), "UID"), (Texts{uids[0], uids[2]}));
    plan.settings.site_name = "Mill Park";
    EXPECT_NE(values_of(calendar(plan), "UID").at(0), uids[0]) << "another site";
}

TEST(EveningsStamp, IsTheLatestDateInTheInputsElseTheFirstEvening) {
    plan::EveningsPlan plan = two_evenings();
    plan.surroundings.today = core::Date{};
    EXPECT_EQ(core::to_text(evenings_stamp(plan)), "2026-06-12T00:00:00Z");
    plan.surroundings.today = std::chrono::year(2026) / 6 / 9;
    EXPECT_EQ(core::to_text(evenings_stamp(plan)), "2026-06-09T00:00:00Z");
}

TEST(Stations, TellPlaceNameAndEvenings) {
    const plan::EveningsPlan plan = two_evenings();
    const geo::Layer layer = stations(plan);
    ASSERT_EQ(layer.size, 3U);
    const geo::Feature oak = layer.feature(1);
    EXPECT_EQ(std::get<core::PlanePoint>(oak.geometry), plan.to_come.places[1].position);
    EXPECT_EQ(oak.values, (core::List{2, "oak", 2}));
    EXPECT_EQ(layer.feature(0).values, (core::List{1, nullptr, 2}));
}

TEST(StationsGpx, HasAWaypointAPlace) {
    const std::string gpx = stations_gpx(two_evenings(), {"1.0", stamp});
    for (const char* part : {"<name>oak</name>", "<name>place 1</name>", "<name>place 3</name>",
                             "Where to stand in Mill &lt;Park&gt;", "<time>2026-06-10T00:00:00Z</time>"})
        EXPECT_NE(gpx.find(part), std::string::npos) << part << "\n" << gpx;
}

TEST(PlannedSheets, HoldWhatIsPlannedAndLeaveTheRestBlank) {
    const std::vector<PlannedSheet> sheets = planned_sheets(two_evenings(), an_hour_ahead);
    ASSERT_EQ(sheets.size(), 2U);
    const geo::Table& watches = sheets[0].table;
    EXPECT_EQ(sheets[0].sheet.name, "watches");
    ASSERT_EQ(watches.rows.size(), 6U);
    EXPECT_EQ(cell(watches, 1, "evening"), "2026-06-12");
    EXPECT_EQ(cell(watches, 1, "watch"), "2026-06-12 team 1 B");
    EXPECT_EQ(cell(watches, 1, "planned_start"), "2026-06-12T22:30:00+01:00");
    EXPECT_EQ(cell(watches, 1, "planned_end"), "2026-06-12T22:55:00+01:00");
    EXPECT_EQ(cell(watches, 1, "farthest_seen_m"), "40");
    EXPECT_EQ(cell(watches, 1, "look_deg"), "225");
    EXPECT_EQ(cell(watches, 1, "seen_by"), "eye");
    std::set<std::string> names;
    for (std::size_t i = 0; i < watches.rows.size(); ++i) {
        EXPECT_TRUE(names.insert(cell(watches, i, "watch")).second);
        for (const char* column : {"start", "end", "observer", "temp_c", "wind_ms", "rain", "notes"})
            EXPECT_EQ(cell(watches, i, column), "") << column;
    }
    const geo::Table& passes = sheets[1].table;
    EXPECT_EQ(sheets[1].sheet.name, "passes");
    EXPECT_EQ(passes.rows.size() % watches.rows.size(), 0U);
    EXPECT_GE(passes.rows.size(), 6 * watches.rows.size());
    for (std::size_t i = 0; i < passes.rows.size(); ++i) {
        EXPECT_TRUE(names.contains(cell(passes, i, "watch")));
        for (const char* column : {"time", "lon", "lat", "count", "bearing_deg"})
            EXPECT_EQ(cell(passes, i, column), "") << column;
    }
}

TEST(EveningsDocument, TellsSettingsDatesAndShares) {
    const core::Document document =
        evenings_document(two_evenings(), {"1.0", "roostward evenings", stamp, {}});
    EXPECT_EQ(document.at("settings").at("gate_closes").text(), "22:30");
    EXPECT_EQ(document.at("settings").at("leader").text(), "R.K.");
    EXPECT_EQ(document.at("settings").at("teams").list().size(), 2U);
    EXPECT_EQ(document.at("settings").at("teams").list()[1].at("farthest_seen_m").number(), 40.0);
    const core::List& after = document.at("after").list();
    ASSERT_EQ(after.size(), 2U);
    EXPECT_EQ(after[1].at("evening").text(), "2026-06-19");
    EXPECT_EQ(after[1].at("share").number(), 0.75);
    const core::List& evenings = document.at("evenings").list();
    ASSERT_EQ(evenings.size(), 2U);
    EXPECT_EQ(evenings[0].at("sunset").text(), "2026-06-12T20:30:00Z");
    EXPECT_EQ(evenings[0].at("moon_age_days").number(), 2.0);
    EXPECT_FALSE(evenings[0].at("provisional").truth());
    EXPECT_TRUE(evenings[1].at("provisional").truth());
    EXPECT_EQ(document.at("spare").list().at(0).at("evening").text(), "2026-06-26");
}

}  // namespace
}  // namespace roostward::report
