// Tables in spreadsheets, as the readers of layers see them. The files are made by make.py in their folder.
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "io/reading_site.hpp"
#include "roostward/io/row_source.hpp"

namespace roostward::io {
namespace {

using testing::ReadingSite;
using testing::source_of;

const std::filesystem::path folder =
    std::filesystem::path(ROOSTWARD_SOURCE_DIR) / "tests/io/data/spreadsheets";

InputSource sheet(const char* file, const char* role = "trees") {
    return source_of(role, folder / file);
}

std::vector<std::size_t> rows_of(const InputSource& source) {
    std::vector<std::size_t> numbers;
    const auto rows = open_rows(source);
    rows->for_each(std::vector<bool>(rows->columns().size(), true), [&](const SourceRow& row) {
        numbers.push_back(row.number);
        return true;
    });
    return numbers;
}

std::string refusal(const InputSource& source) {
    try {
        (void)open_rows(source);
    } catch (const core::Error& error) {
        EXPECT_EQ(error.place().file, source.file);
        EXPECT_EQ(error.place().layer, source.role);
        return error.what();
    }
    ADD_FAILURE() << source.file << " was not refused";
    return {};
}

std::vector<std::string> note_kinds(const InputSource& source) {
    std::vector<std::string> kinds;
    for (const RowTrouble& note : open_rows(source)->notes())
        kinds.push_back(note.kind);
    return kinds;
}

using Strings = std::vector<std::string>;
using Numbers = std::vector<std::size_t>;

TEST(SheetSource, FindsTheHeaderBelowTitles) {
    const auto rows = open_rows(sheet("trees_titled.xlsx"));
    EXPECT_EQ(rows->columns(), (Strings{"Tree no", "Lon", "Lat", "DBH (cm)", "Hollow", "Species"}));
    ASSERT_EQ(rows->notes().size(), 1U);
    EXPECT_EQ(rows->notes()[0].kind, "header below the top");
    EXPECT_NE(rows->notes()[0].sentence.find("row 4"), std::string::npos);
}

TEST(SheetSource, RowsKeepTheNumbersOfTheSheet) {
    EXPECT_EQ(rows_of(sheet("trees_titled.xlsx")), (Numbers{5, 6, 9, 10, 12, 13, 14}));
    EXPECT_EQ(rows_of(sheet("passes.ods")), (Numbers{4, 5, 6}));
}

TEST(SheetSource, AnAllTextSheetKeepsItsHeader) {
    const auto rows = open_rows(sheet("passes_all_text.xlsx"));
    EXPECT_EQ(rows->columns(), (Strings{"date", "time", "watch", "lon", "lat", "bearing_deg"}));
    EXPECT_EQ(rows_of(sheet("passes_all_text.xlsx")), (Numbers{2, 3, 4, 5}));
    EXPECT_TRUE(rows->notes().empty());
}

TEST(SheetSource, HiddenRowsAndColumnsAreReadAndTold) {
    EXPECT_EQ(rows_of(sheet("trees_hidden.xlsx")), (Numbers{2, 3, 4}));
    EXPECT_EQ(note_kinds(sheet("trees_hidden.xlsx")),
              (Strings{"hidden rows", "hidden columns", "columns without a name"}));
}

TEST(SheetSource, SeveralSheetsWithRowsMustBeNamed) {
    InputSource source = sheet("several_sheets.xlsx");
    const std::string said = refusal(source);
    EXPECT_NE(said.find("layer = one of: North, South."), std::string::npos) << said;
    source.layer = "South";
    EXPECT_EQ(rows_of(source), (Numbers{2, 3}));
    source.layer = "Choices";
    EXPECT_EQ(rows_of(source), (Numbers{2})) << "a hidden sheet can be named";
    source.layer = "East";
    EXPECT_NE(refusal(source).find("Read me, North, South, Choices"), std::string::npos);
}

TEST(SheetSource, FiltersRowsAsTextDoes) {
    InputSource source = sheet("trees_titled.xlsx");
    source.only = R"_("DBH (cm)" > 40 OR Species LIKE 'Tilia%')_";
    EXPECT_EQ(rows_of(source), (Numbers{6, 9, 10, 12, 13})) << "sums are set aside, not filtered out";
    source.only = "nothing = 1";
    EXPECT_NE(refusal(source).find("The columns are: Tree no, Lon"), std::string::npos);
}

TEST(SheetSource, RefusalsNameTheFileAndLayer) {
    EXPECT_NE(refusal(sheet("old.xls")).find("save it as .xlsx or .ods"), std::string::npos);
    EXPECT_NE(refusal(sheet("locked.ods")).find("password"), std::string::npos);
    InputSource source = sheet("several_sheets.xlsx");
    source.layer = "Read me";
    EXPECT_NE(refusal(source).find("holds no table"), std::string::npos);
}

struct SpreadsheetSite : ReadingSite, ::testing::Test {};

TEST_F(SpreadsheetSite, TreesAreReadWithTheirFindings) {
    file.trees = sheet("trees_titled.xlsx");
    file.max_bad_share = 0.5;
    const siting::Inputs inputs = read();
    const auto& trees = inputs.trees.rows;
    ASSERT_EQ(trees.size(), 4U);
    EXPECT_EQ(trees[0].id, "0101");
    EXPECT_DOUBLE_EQ(trees[0].dbh->value(), 35.5);
    EXPECT_EQ(trees[0].has_hollow, std::optional(true));
    EXPECT_DOUBLE_EQ(trees[1].dbh->value(), 71.0) << "the value that the formula had";
    EXPECT_FALSE(trees[2].dbh.has_value());
    EXPECT_FALSE(trees[3].dbh.has_value());
    EXPECT_TRUE(found("error in a cell"));
    EXPECT_TRUE(found("total"));
    EXPECT_TRUE(found("header below the top"));
    testing::expect_nothing_lost(inputs, findings);
}

TEST_F(SpreadsheetSite, PassesOfEveryKindOfSheetAreTheSame) {
    testing::put_text(
        folder / "passes.csv",
        "date,time,watch,lon,lat,bearing_deg\n2026-06-09,21:46:46,bridge-1,-1.897611,52.29792,80\n"
        "2026-06-09,21:47:46,bridge-1,-1.897511,52.29792,81\n"
        "2026-06-09,21:48:46,bridge-1,-1.897411,52.29792,82\n"
        "2026-06-09,21:49:46,bridge-1,-1.897311,52.29792,83\n");
    const siting::Inputs text = read();
    ASSERT_EQ(text.passes.rows.size(), 4U);
    for (const char* name : {"passes.xlsx", "passes_1904.xlsx", "passes_all_text.xlsx", "passes_merged.xlsx",
                             "libreoffice_passes_merged.ods"}) {
        file.passes = sheet(name, "passes");
        const siting::Inputs inputs = read();
        ASSERT_EQ(inputs.passes.rows.size(), 4U) << name;
        for (std::size_t i = 0; i < 4; ++i) {
            EXPECT_EQ(inputs.passes.rows[i].time, text.passes.rows[i].time) << name;
            EXPECT_EQ(inputs.passes.rows[i].bearing, text.passes.rows[i].bearing) << name;
            EXPECT_NEAR(inputs.passes.rows[i].position.easting, text.passes.rows[i].position.easting, 1e-3)
                << name;
        }
    }
}

TEST_F(SpreadsheetSite, ADateFormatKeepsItsTime) {
    file.passes = sheet("passes_date_format.xlsx", "passes");
    const siting::Inputs inputs = read();
    ASSERT_EQ(inputs.passes.rows.size(), 4U);
    EXPECT_TRUE(inputs.passes.rows[0].time.has_value());
}

}  // namespace
}  // namespace roostward::io
