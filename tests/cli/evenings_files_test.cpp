// What is written of evenings to come, read by others and by ourselves.
#include "roostward/report/evenings_files.hpp"

#include <gtest/gtest.h>

#include <cstdlib>
#include <nlohmann/json.hpp>
#include <sstream>

#include "cli/program.hpp"
#include "report/two_evenings.hpp"
#include "roostward/io/times.hpp"
#include "roostward/io/writers.hpp"

namespace roostward {
namespace {

using nlohmann::json;
using testing::Ran;
using testing::run_program;
using testing::ScratchFolder;

const core::Instant stamp{std::chrono::sys_days(std::chrono::year(2026) / 6 / 10)};

report::SiteZone zone_of(const io::SiteClock& clock, const std::string& name,
                         const plan::EveningsPlan& plan) {
    return {name, [&clock](core::Instant instant) { return clock.local_text(instant); },
            clock.offsets(plan.to_come.evenings.front().begin, plan.to_come.spare.back().end)};
}

/// What Debian's python3-icalendar reads, a row an event.
std::vector<std::vector<std::string>> events_in(const std::string& calendar) {
    const ScratchFolder folder;
    testing::put_text(folder / "evenings.ics", calendar);
    const std::string command = "/usr/bin/python3 '" ROOSTWARD_SOURCE_DIR "/tests/cli/read_calendar.py' '" +
                                (folder / "evenings.ics").string() + "' > '" +
                                (folder / "read.txt").string() + "'";
    EXPECT_EQ(std::system(command.c_str()), 0) << "install python3-icalendar: scripts/install test";
    std::istringstream lines(testing::text_of(folder / "read.txt"));
    std::vector<std::vector<std::string>> events;
    for (std::string line; std::getline(lines, line);) {
        events.emplace_back();
        std::istringstream cells(line);
        for (std::string cell; std::getline(cells, cell, '|');)
            events.back().push_back(cell);
    }
    return events;
}

// python3-icalendar 4.0.3, by the zone of that name and by the one described in the file.
TEST(EveningsCalendarReadByOthers, TellsTheSameMoments) {
    plan::EveningsPlan plan = testing::two_evenings();
    plan.settings.site_name = "Mühle, \"Park\"; 林 and a name that is so long that it must be folded, surely";
    plan.middle = {core::Degrees(-1.89712), core::Degrees(52.29834)};
    const io::SiteClock clock("Europe/London");
    const auto events = events_in(report::evenings_ics(plan, zone_of(clock, "Europe/London", plan), stamp));
    ASSERT_EQ(events.size(), 3U);
    const std::vector<std::string> begins{"2026-06-12T20:15:00Z", "2026-06-19T20:15:00Z",
                                          "2026-06-26T20:15:00Z"};
    for (std::size_t i = 0; i < 3; ++i) {
        ASSERT_EQ(events[i].size(), 9U);
        EXPECT_EQ(events[i][1], begins[i]);
        EXPECT_EQ(events[i][2], begins[i]);
        EXPECT_EQ(events[i][4], i == 2 ? "TENTATIVE" : "CONFIRMED");
        EXPECT_EQ(events[i][5], "-7200.0");
        EXPECT_EQ(events[i][6], plan.settings.site_name);
        EXPECT_EQ(events[i][7], "2026-06-10T00:00:00+00:00");
        EXPECT_EQ(events[i][8], "52.29834;-1.89712");
    }
    EXPECT_EQ(events[0][3], "2026-06-12T22:00:00Z");
}

// Before and after clocks change, forward and back, ahead of UTC and behind it: tests/reference/evenings.
TEST(EveningsCalendarReadByOthers, KnowsTheZoneAcrossItsChanges) {
    struct Case {
        const char* zone;
        std::vector<std::string> begins;
    };
    for (const Case& one :
         {Case{"Europe/London", {"2026-03-28T18:19:00Z", "2026-03-29T18:21:00Z", "2026-04-05T18:33:00Z"}},
          Case{"America/New_York", {"2026-10-31T21:38:00Z", "2026-11-01T21:37:00Z", "2026-11-08T21:29:00Z"}},
          Case{"Australia/Lord_Howe",
               {"2026-04-04T07:01:00Z", "2026-04-05T07:00:00Z", "2026-04-12T06:52:00Z"}},
          Case{"Asia/Kolkata", {"2026-06-12T13:30:00Z", "2026-06-19T13:30:00Z", "2026-06-26T13:30:00Z"}},
          Case{"Pacific/Kiritimati",
               {"2026-06-12T04:30:00Z", "2026-06-19T04:30:00Z", "2026-06-26T04:30:00Z"}}}) {
        plan::EveningsPlan plan = testing::two_evenings();
        const auto at = [&](std::size_t i) {
            const auto read = io::read_time(one.begins[i], io::DateOrder::unknown);
            const auto moment = io::SiteClock("").moment_of(*io::value_in(read));
            return io::value_in(moment)->instant;
        };
        for (std::size_t i = 0; i < 2; ++i) {
            plan.to_come.evenings[i].begin = at(i);
            plan.to_come.evenings[i].end = at(i) + std::chrono::hours(2);
        }
        plan.to_come.spare[0].begin = at(2);
        plan.to_come.spare[0].end = at(2) + std::chrono::hours(2);
        const io::SiteClock clock(one.zone);
        const auto events = events_in(report::evenings_ics(plan, zone_of(clock, one.zone, plan), stamp));
        ASSERT_EQ(events.size(), 3U) << one.zone;
        for (std::size_t i = 0; i < 3; ++i) {
            EXPECT_EQ(events[i][1], one.begins[i]) << one.zone;
            EXPECT_EQ(events[i][2], one.begins[i]) << one.zone << ", as the file describes it";
        }
    }
}

// tests/reference/report/gpx.xsd: the schema of GPX 1.1.
TEST(StationsGpx, KeepsToTheSchema) {
    const ScratchFolder folder;
    plan::EveningsPlan plan = testing::two_evenings();
    plan.to_come.places[0].name = "<the \x01 & bridge>";
    testing::put_text(folder / "stations.gpx", report::stations_gpx(plan, {"1.0", stamp}));
    const std::string command = "xmllint --nonet --noout --schema '" ROOSTWARD_SOURCE_DIR
                                "/tests/reference/report/gpx.xsd' '" +
                                (folder / "stations.gpx").string() + "'";
    EXPECT_EQ(std::system(command.c_str()), 0);
}

/// The demo with sheets of evenings to come beside its own notes.
class PlannedSheetsOfTheDemo : public ::testing::Test {
 protected:
    PlannedSheetsOfTheDemo() {
        testing::copy_demo(folder);
        std::vector<report::PlannedSheet> planned = report::planned_sheets(evenings(), clock_text());
        for (report::PlannedSheet& sheet : planned)
            sheets[sheet.sheet.name] = std::move(sheet);
        write();
    }

    /// Two evenings at places in the demo's park.
    static plan::EveningsPlan evenings() {
        plan::EveningsPlan plan = testing::two_evenings();
        plan.planning_crs = geo::wgs84();
        plan.to_come.places = {
            {{-1.8975, 52.2985}, ""}, {{-1.8960, 52.2982}, "oak"}, {{-1.8950, 52.2990}, ""}};
        return plan;
    }
    [[nodiscard]] report::LocalText clock_text() const {
        return [this](core::Instant instant) { return clock.local_text(instant); };
    }
    void write() {
        for (const auto& [name, planned] : sheets) {
            io::write_csv(folder / ("planned_" + name + ".csv"), planned.table);
            io::write_xlsx(folder / ("planned_" + name + ".xlsx"),
                           report::workbook(planned.sheet, planned.table));
        }
    }
    void fill_in(const std::string& sheet, std::size_t row, const std::string& column,
                 const std::string& text) {
        geo::Table& table = sheets.at(sheet).table;
        const auto at = std::ranges::find(table.header, column) - table.header.begin();
        table.rows.at(row).at(static_cast<std::size_t>(at)) = text;
    }
    Ran plan(const std::string& out, const std::vector<std::string>& more) {
        std::vector<std::string> words{"plan",    (folder / "site.toml").string(),
                                       "--out",   (folder / out).string(),
                                       "--quiet", "--ranking-only"};
        words.insert(words.end(), more.begin(), more.end());
        return run_program(words);
    }
    Ran plan_with_sheets(const std::string& out, const std::string& ending) {
        return plan(out, {"--set", "inputs.watches=[\"watches.csv\",\"planned_watches." + ending + "\"]",
                          "--set", "inputs.passes=[\"passes.csv\",\"planned_passes." + ending + "\"]"});
    }
    [[nodiscard]] std::string ranked(const std::string& out) const {
        return testing::text_of(folder / out / "ranked_sites.geojson");
    }
    [[nodiscard]] json rows_of(const std::string& out, const std::string& file) const {
        const json plan = json::parse(testing::text_of(folder / out / "plan.json"));
        for (const json& row : plan["rows"])
            if (row["file"] == file) return row;
        return {};
    }

    ScratchFolder folder;
    io::SiteClock clock{"Europe/London"};
    std::map<std::string, report::PlannedSheet> sheets;
};

TEST_F(PlannedSheetsOfTheDemo, UntouchedChangeNoFigure) {
    ASSERT_EQ(plan("without", {}).exit_code, 0);
    for (const std::string ending : {"csv", "xlsx"}) {
        const Ran ran = plan_with_sheets("with-" + ending, ending);
        ASSERT_EQ(ran.exit_code, 0) << ran.err;
        EXPECT_EQ(ranked("with-" + ending), ranked("without")) << ending;
        const json watches = rows_of("with-" + ending, "planned_watches." + ending);
        EXPECT_EQ(watches["apart"], 6) << ending;
        EXPECT_EQ(watches["read"], 6) << ending;
        const json passes = rows_of("with-" + ending, "planned_passes." + ending);
        EXPECT_EQ(passes["apart"], passes["read"]) << ending;
        EXPECT_EQ(passes["set_aside"], 0) << ending;
    }
}

TEST_F(PlannedSheetsOfTheDemo, FilledInCount) {
    ASSERT_EQ(plan("without", {}).exit_code, 0);
    fill_in("watches", 0, "start", "22:10");
    fill_in("watches", 0, "end", "22:40");
    fill_in("watches", 0, "temp_c", "15");
    fill_in("passes", 3, "time", "22:20");
    fill_in("passes", 3, "distance_m", "12");
    fill_in("passes", 3, "direction", "NE");
    fill_in("passes", 3, "bearing_deg", "W");
    write();
    for (const std::string ending : {"csv", "xlsx"}) {
        const Ran ran = plan_with_sheets("with-" + ending, ending);
        ASSERT_EQ(ran.exit_code, 0) << ran.err;
        EXPECT_NE(ranked("with-" + ending), ranked("without")) << "a watch and a pass more";
        EXPECT_EQ(rows_of("with-" + ending, "planned_watches." + ending)["used"], 1) << ending;
        EXPECT_EQ(rows_of("with-" + ending, "planned_watches." + ending)["apart"], 5) << ending;
        EXPECT_EQ(rows_of("with-" + ending, "planned_passes." + ending)["used"], 1) << ending;
        EXPECT_EQ(rows_of("with-" + ending, "planned_passes." + ending)["set_aside"], 0) << ending;
    }
    EXPECT_EQ(ranked("with-csv"), ranked("with-xlsx"));
}

TEST_F(PlannedSheetsOfTheDemo, AloneAndUntouchedAreAScreening) {
    std::string site = testing::text_of(folder / "site.toml");
    for (const char* layer : {"passes ", "tracks ", "tallies ", "routes ", "watches "}) {
        const std::size_t line = site.find(std::string("\n") + layer);
        ASSERT_NE(line, std::string::npos) << layer;
        site.erase(line, site.find('\n', line + 1) - line);
    }
    testing::put_text(folder / "site.toml", site);
    const Ran ran = plan("screened", {"--set", "inputs.watches=\"planned_watches.csv\"", "--set",
                                      "inputs.passes=\"planned_passes.csv\""});
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_EQ(json::parse(testing::text_of(folder / "screened/plan.json"))["summary"]["screening"], true);
    const Ran checked = run_program({"check", (folder / "site.toml").string(), "--set",
                                     "inputs.watches=\"planned_watches.csv\"", "--set",
                                     "inputs.passes=\"planned_passes.csv\""});
    EXPECT_EQ(checked.exit_code, 0) << checked.err;
    EXPECT_NE(checked.out.find("not held yet"), std::string::npos) << checked.out;
}

}  // namespace
}  // namespace roostward
