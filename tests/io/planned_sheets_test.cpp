// Sheets filled in with evenings to come: planned hours are no hours held.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "io/reading_site.hpp"

namespace roostward::io {
namespace {

using testing::ReadingSite;
using testing::source_of;

const std::string watch_header =
    "evening,watch,planned_start,planned_end,start,end,lon,lat,farthest_seen_m,observer\n";
const std::string pass_header =
    "evening,watch,planned_start,planned_end,time,distance_m,direction,lon,lat,bearing_deg,count\n";

std::string watch(const std::string& name, const std::string& start, const std::string& end) {
    return "2026-06-12," + name + ",2026-06-12T21:15:00+01:00,2026-06-12T21:45:00+01:00," + start + "," +
           end + ",-1.8963,52.2979,40,\n";
}

std::string pass(const std::string& name, const std::string& rest) {
    return "2026-06-12," + name + ",2026-06-12T21:15:00+01:00,2026-06-12T21:45:00+01:00," + rest + "\n";
}

struct PlannedSite : ReadingSite {
    PlannedSite() { file.max_bad_share = 0.0; }
    void watches(const std::string& rows) {
        put("planned.csv", watch_header + rows);
        file.watches->further = {{"planned.csv", (folder / "planned.csv").string()}};
    }
    void passes(const std::string& rows) {
        put("lines.csv", pass_header + rows);
        file.passes->further = {{"lines.csv", (folder / "lines.csv").string()}};
    }
};

const core::RowCount& count_of(const siting::Inputs& inputs, const std::string& file) {
    return *std::ranges::find(inputs.counts, file, &core::RowCount::file);
}

const core::Finding& finding_of(const ReadingSite& site, const std::string& kind) {
    static const core::Finding none;
    const auto found = std::ranges::find(site.findings, kind, &core::Finding::kind);
    EXPECT_NE(found, site.findings.end()) << kind;
    return found == site.findings.end() ? none : *found;
}

TEST(PlannedWatches, AreApartUntilTheyAreHeld) {
    PlannedSite site;
    site.watches(watch("A", "", "") + watch("B", "", "") + watch("C", "21:20", "21:50"));
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    EXPECT_EQ(count_of(inputs, "planned.csv").apart, 2U);
    EXPECT_EQ(count_of(inputs, "planned.csv").used, 1U);
    EXPECT_EQ(finding_of(site, "not held yet").rows, 2U) << "told once, with a count";
    const auto held = std::ranges::find(inputs.watches.rows, "C", &survey::Watch::name);
    ASSERT_NE(held, inputs.watches.rows.end());
    EXPECT_EQ(core::to_text(held->start), "2026-06-12T20:20:00Z") << "as it was, not as it was planned";
    EXPECT_EQ(core::to_text(held->end), "2026-06-12T20:50:00Z");
}

TEST(PlannedWatches, HalfFilledInAreSetAsideWithWhatToDo) {
    PlannedSite site;
    site.file.max_bad_share = 1.0;
    site.watches(watch("A", "21:20", "") + watch("B", "", "21:50"));
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    EXPECT_EQ(count_of(inputs, "planned.csv").set_aside, 2U);
    std::vector<std::string> fields;
    for (const core::Finding& finding : site.findings)
        if (finding.kind == "half of the hours") fields.push_back(finding.place.field);
    std::ranges::sort(fields);
    EXPECT_EQ(fields, (std::vector<std::string>{"end", "start"}));
    EXPECT_NE(finding_of(site, "half of the hours").sentence.find("if the evening was not held"),
              std::string::npos);
}

// An evening runs from noon to noon: ten past midnight is still of it.
TEST(PlannedWatches, AfterMidnightAreOfTheEvening) {
    PlannedSite site;
    site.watches(watch("A", "00:10", "00:40") + watch("B", "9:25", "9:55") + watch("C", "23:50", "00:20"));
    const siting::Inputs inputs = site.read();
    std::map<std::string, std::string> starts, ends;
    for (const survey::Watch& row : inputs.watches.rows) {
        starts[row.name] = core::to_text(row.start);
        ends[row.name] = core::to_text(row.end);
    }
    EXPECT_EQ(starts["A"], "2026-06-12T23:10:00Z");
    EXPECT_EQ(starts["B"], "2026-06-12T20:25:00Z");
    EXPECT_EQ(starts["C"], "2026-06-12T22:50:00Z");
    EXPECT_EQ(ends["C"], "2026-06-12T23:20:00Z");
}

// A sheet of one's own without the planned columns still says what is missing.
TEST(PlannedWatches, WithoutAPlanAMissingStartIsStillBad) {
    PlannedSite site;
    site.file.max_bad_share = 1.0;
    site.put("own.csv", "watch,lon,lat,date,start,end\nA,-1.8963,52.2979,2026-06-12,,\n");
    site.file.watches->further = {{"own.csv", (site.folder / "own.csv").string()}};
    EXPECT_EQ(count_of(site.read(), "own.csv").set_aside, 1U);
    EXPECT_TRUE(site.found("no start or end"));
}

TEST(PlannedPasses, NobodyFilledInAreApart) {
    PlannedSite site;
    site.watches(watch("A", "21:20", "21:50"));
    site.passes(pass("A", ",,,,,,") + pass("A", "21:30,,,-1.8956,52.2982,90,") + pass("A", ",,,,,,"));
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    EXPECT_EQ(count_of(inputs, "lines.csv").apart, 2U);
    EXPECT_EQ(count_of(inputs, "lines.csv").used, 1U);
    EXPECT_EQ(finding_of(site, "nothing written").rows, 2U);
    const auto seen = std::ranges::find(inputs.passes.rows, "A", &survey::Pass::watch);
    ASSERT_NE(seen, inputs.passes.rows.end());
    EXPECT_EQ(core::to_text(*seen->time), "2026-06-12T20:30:00Z");
}

TEST(PlannedPasses, PartlyFilledInSayWhatIsMissing) {
    PlannedSite site;
    site.file.max_bad_share = 1.0;
    site.watches(watch("A", "21:20", "21:50"));
    site.passes(pass("A", "21:30,,,,,90,"));
    EXPECT_EQ(count_of(site.read(), "lines.csv").set_aside, 1U);
    EXPECT_TRUE(site.found("no coordinates"));
}

// Nobody has watched yet: trees alone can be screened.
TEST(PlannedSheets, UntouchedAreAScreening) {
    ReadingSite site;
    site.put("trees.csv", "tree,lon,lat,dbh_cm\nT1,-1.8961,52.2980,40\n");
    site.file.trees = source_of("trees", site.folder / "trees.csv");
    site.put("watches.csv", watch_header + watch("A", "", ""));
    site.put("passes.csv", pass_header + pass("A", ",,,,,,"));
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    EXPECT_TRUE(inputs.watches.rows.empty() && inputs.passes.rows.empty());
    EXPECT_EQ(inputs.trees.rows.size(), 1U);
}

}  // namespace
}  // namespace roostward::io
