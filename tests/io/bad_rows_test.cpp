#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "io/reading_site.hpp"

namespace roostward::io {
namespace {

using core::Severity;
using testing::ReadingSite;
using testing::source_of;
namespace fs = std::filesystem;

const fs::path data = fs::path(ROOSTWARD_SOURCE_DIR) / "tests/io/data";

struct BadRow {
    std::size_t line;
    Severity severity;
    const char* kind;
};

// One row each, in the order of the file. That Europe/London skips and repeats the hours of rows 13 and 40:
// IANA time zone database. What counts as far or impossible: common practice, no source.
const std::vector<BadRow> bad_rows = {
    {3, Severity::set_aside, "shifted cells"},
    {4, Severity::set_aside, "shifted cells"},
    {5, Severity::set_aside, "open quote"},
    {6, Severity::set_aside, "open quote"},
    {7, Severity::set_aside, "no time"},
    {8, Severity::set_aside, "unreadable time"},
    {9, Severity::set_aside, "unreadable time"},
    {10, Severity::set_aside, "no such date"},
    {11, Severity::set_aside, "no such date"},
    {12, Severity::set_aside, "time without a date"},
    {13, Severity::set_aside, "skipped hour"},
    {14, Severity::set_aside, "date too late"},
    {15, Severity::set_aside, "clock not set"},
    {16, Severity::set_aside, "how many?"},
    {17, Severity::set_aside, "nothing counted"},
    {18, Severity::set_aside, "nothing counted"},
    {19, Severity::set_aside, "only an upper end"},
    {20, Severity::set_aside, "unknown unit"},
    {21, Severity::set_aside, "no coordinates"},
    {22, Severity::set_aside, "no coordinates"},
    {23, Severity::set_aside, "no coordinates"},
    {24, Severity::set_aside, "not a number"},
    {25, Severity::set_aside, "coordinates (0, 0)"},
    {26, Severity::set_aside, "swapped coordinates"},
    {27, Severity::set_aside, "coordinates out of range"},
    {28, Severity::set_aside, "coordinates out of range"},
    {29, Severity::set_aside, "far outside the site"},
    {30, Severity::doubtful, "unknown bearing"},
    {31, Severity::doubtful, "impossible bearing"},
    {32, Severity::doubtful, "not a number"},
    {33, Severity::doubtful, "impossible height_m"},
    {34, Severity::doubtful, "unknown unit"},
    {35, Severity::doubtful, "only an upper end"},
    {36, Severity::doubtful, "range"},
    {37, Severity::doubtful, "impossible accuracy_m"},
    {38, Severity::doubtful, "unknown place_of"},
    {39, Severity::doubtful, "unknown behaviour"},
    {40, Severity::doubtful, "repeated hour"},
    {41, Severity::doubtful, "range"},
    {43, Severity::doubtful, "the same pass twice"},
};

TEST(BadRows, EachIsFoundAndNoneIsLost) {
    ReadingSite site;
    site.file.passes = source_of("passes", data / "forty_bad_rows.csv");
    site.file.max_bad_share = 1.0;
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    EXPECT_EQ(inputs.passes.read, 43U);
    EXPECT_EQ(inputs.passes.rows.size(), 16U);
    for (const BadRow& bad : bad_rows) {
        const auto finding = std::find_if(
            site.findings.begin(), site.findings.end(),
            [&](const core::Finding& f) { return f.place.layer == "passes" && f.place.row == bad.line; });
        ASSERT_NE(finding, site.findings.end()) << bad.line << " " << bad.kind;
        EXPECT_EQ(finding->kind, bad.kind) << bad.line;
        EXPECT_EQ(finding->severity, bad.severity) << bad.line;
        EXPECT_EQ(finding->place.file, "forty_bad_rows.csv");
        EXPECT_FALSE(finding->sentence.empty());
    }
    EXPECT_EQ(site.findings.size(), bad_rows.size());
}

TEST(BadRows, MoreThanTheShareStopsTheRunAndSaysWhy) {
    ReadingSite site;
    site.file.passes = source_of("passes", data / "forty_bad_rows.csv");
    const ReadingSite::Stop stop = site.stop();
    EXPECT_EQ(stop.fault, core::Fault::inputs);
    // 27 rows are bad; the two at the wrong place are found only later, in the planning plane.
    EXPECT_NE(stop.text.find("forty_bad_rows.csv, layer passes: 25 of 43 rows (58 %)"), std::string::npos)
        << stop.text;
    EXPECT_NE(stop.text.find("no coordinates"), std::string::npos) << stop.text;
    EXPECT_FALSE(site.findings.empty());
}

struct Companion {
    const char* file;
    bool told;  ///< whether its encoding is told
};

TEST(BadRows, FilesOfOtherProgramsReadTheSame) {
    for (const Companion& companion :
         {Companion{"trees_utf16le.csv", false}, Companion{"trees_utf16be_without_mark.csv", false},
          Companion{"trees_cp1252.csv", true}, Companion{"trees_utf8_mark_semicolons.csv", false},
          Companion{"trees_pipes.csv", false}, Companion{"trees_tabs_crlf.csv", false}}) {
        ReadingSite site;
        site.file.trees = source_of("trees", data / companion.file);
        const siting::Inputs inputs = site.read();
        ASSERT_EQ(inputs.trees.rows.size(), 2U) << companion.file;
        EXPECT_EQ(inputs.trees.rows[0].species, "Tilleul à grandes feuilles") << companion.file;
        EXPECT_EQ(inputs.trees.rows[1].species, "Größte Eiche") << companion.file;
        EXPECT_EQ(inputs.trees.rows[0].dbh, std::optional(core::Centimetres(35.0))) << companion.file;
        EXPECT_EQ(site.found("not UTF-8"), companion.told) << companion.file;
    }
}

TEST(BadRows, OfTreesAreFoundToo) {
    ReadingSite site;
    site.put("trees.csv",
             "tree,lon,lat,dbh_cm,height_m,condition,hazard,permission,has_hollow,inspected\n"
             "1,-1.8956,52.2982,35,12,good,improbable,given,no,2025-05-01\n"
             "1,-1.8956,52.2982,35,12,good,improbable,given,no,2025-05-01\n"
             "1,-1.8957,52.2982,35,12,good,improbable,given,no,2025-05-01\n"
             "1,-1.8957,52.2982,35,12,good,improbable,given,no,2025-05-01\n"
             "2,-1.8958,52.2982,1501,131,mature,wobbly,perhaps,maybe,last year\n"
             "3,-1.8959,52.2982,0,0,,,,,\n");
    site.file.trees = source_of("trees", site.folder / "trees.csv");
    site.file.max_bad_share = 0.4;
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    ASSERT_EQ(inputs.trees.rows.size(), 4U);
    EXPECT_EQ(inputs.trees.rows[0].id, "1#2") << "the one further west keeps its identifier";
    EXPECT_EQ(inputs.trees.rows[1].id, "1");
    EXPECT_FALSE(inputs.trees.rows[2].dbh || inputs.trees.rows[2].height || inputs.trees.rows[2].condition);
    EXPECT_FALSE(inputs.trees.rows[3].dbh || inputs.trees.rows[3].height);
    for (const char* kind : {"the same tree twice", "identifier used twice", "impossible dbh_cm",
                             "impossible height_m", "unknown condition", "unknown hazard",
                             "unknown permission", "unknown has_hollow", "unreadable date"}) {
        EXPECT_TRUE(site.found(kind)) << kind;
    }
    EXPECT_EQ(site.findings.size(), 10U);
}

}  // namespace
}  // namespace roostward::io
