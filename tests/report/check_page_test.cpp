#include "roostward/report/check_page.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "roostward/report/fix_list.hpp"
#include "roostward/report/text_block.hpp"

namespace roostward::report {
namespace {

using core::Severity;

core::Finding finding(Severity severity, const std::string& layer, std::size_t row, const std::string& kind) {
    return {severity, {layer + ".csv", layer, row, "field"}, kind, "value", "say " + kind};
}

/// Three evenings watched from the origin, and a hundred trees beside it.
plan::Checked a_survey() {
    plan::Checked checked;
    checked.site_name = "Alder Reach Park";
    checked.counts = {{"passes", "passes.csv", 100, 90, 10}, {"trees", "trees.csv", 100, 100, 0}};
    checked.survey.evenings.resize(3);
    survey::Watch watch;
    watch.path = {{0.0, 0.0}};
    watch.range = core::Metres(50.0);
    checked.survey.watches = {watch};
    checked.trees.file = "trees.csv";
    checked.trees.layer = "trees";
    for (const auto field : {trees::TreeField::dbh, trees::TreeField::height, trees::TreeField::condition})
        checked.trees.columns.add(field);
    for (std::size_t i = 0; i < 100; ++i) {
        trees::Tree tree;
        tree.row = i + 2;
        tree.id = "T" + std::to_string(i);
        tree.stem = {static_cast<double>(i), 0.0};
        tree.dbh = core::Centimetres(40.0);
        tree.height = core::Metres(12.0);
        tree.condition = trees::Condition::good;
        checked.trees.rows.push_back(tree);
    }
    return checked;
}

TEST(RowList, JoinsNeighboursAndCountsTheRest) {
    EXPECT_EQ(row_list({12}, 3), "12");
    EXPECT_EQ(row_list({12, 13, 14, 20}, 3), "12–14, 20");
    EXPECT_EQ(row_list({1, 3, 5, 6, 9}, 2), "1, 3 and 3 more");
}

TEST(MendFirst, SaysNothingOfFilesInWhichNothingIsWrong) {
    EXPECT_TRUE(fix_first(a_survey()).empty());
}

TEST(MendFirst, NamesWhatCostsMostFirstAndAtMostThree) {
    plan::Checked checked = a_survey();
    for (std::size_t row = 2; row < 12; ++row)
        checked.findings.push_back(finding(Severity::set_aside, "passes", row, "swapped coordinates"));
    checked.findings.push_back(finding(Severity::doubtful, "passes", 50, "far from its watch"));
    checked.findings.push_back(finding(Severity::doubtful, "trees", 7, "range"));
    checked.findings.push_back(finding(Severity::set_aside, "trees", 8, "no coordinates"));
    const auto sentences = fix_first(checked);
    ASSERT_EQ(sentences.size(), 3U);
    EXPECT_EQ(sentences[0],
              "passes.csv, rows 2–11: swapped coordinates (\"value\"): say swapped coordinates.");
    EXPECT_NE(sentences[1].find("no coordinates"), std::string::npos) << sentences[1];
    EXPECT_NE(sentences[2].find("far from its watch"), std::string::npos) << sentences[2];
}

TEST(MendFirst, AsksForWatchesAndEveningsBeforeAllElse) {
    plan::Checked checked = a_survey();
    checked.survey.watches.clear();
    checked.survey.evenings.resize(1);
    checked.findings.push_back(finding(Severity::set_aside, "trees", 8, "no coordinates"));
    const auto sentences = fix_first(checked);
    ASSERT_EQ(sentences.size(), 3U);
    EXPECT_NE(sentences[0].find("watches"), std::string::npos);
    EXPECT_NE(sentences[1].find("Only one"), std::string::npos);
}

TEST(MendFirst, AsksForNoEveningsBeforeAScreening) {
    plan::Checked checked = a_survey();
    checked.survey = {};
    checked.screening = true;
    EXPECT_TRUE(fix_first(checked).empty());
}

TEST(MendFirst, LeavesAloneWhatARuleLeavesOut) {
    plan::Checked checked = a_survey();
    for (std::size_t row = 2; row < 60; ++row)
        checked.findings.push_back(finding(Severity::set_aside, "passes", row, "poor weather"));
    EXPECT_TRUE(fix_first(checked).empty());
}

TEST(CheckPage, GroupsFindingsByKindWithTheirRowsAndFitsATerminal) {
    plan::Checked checked = a_survey();
    checked.files = {
        {"trees", "trees.csv", "", "", "", {}, {"tree ← tree", "dbh_cm ← girth_in (girth, in in)"}}};
    for (std::size_t row = 2; row < 12; ++row)
        checked.findings.push_back(finding(Severity::set_aside, "passes", row, "swapped coordinates"));
    core::Finding often = finding(Severity::doubtful, "trees", 7, "range");
    often.rows = 5;
    checked.findings.push_back(often);
    checked.checks = {{"power lines", false, "give a layer to avoid"}};
    const std::string page = check_page(checked);
    EXPECT_NE(page.find("100 rows read: 90 used, 10 set aside"), std::string::npos) << page;
    EXPECT_NE(page.find("10 × swapped coordinates (rows 2–11)"), std::string::npos) << page;
    EXPECT_NE(page.find("5 × range (first in row 7)"), std::string::npos) << page;
    EXPECT_NE(page.find("Columns: tree\n"), std::string::npos) << page;
    EXPECT_NE(page.find("Taken for: dbh_cm ← girth_in"), std::string::npos) << page;
    EXPECT_NE(page.find("Nobody has checked: power lines."), std::string::npos) << page;
    std::size_t start = 0;
    for (std::size_t end = 0; (end = page.find('\n', start)) != std::string::npos; start = end + 1)
        EXPECT_LE(columns_of(page.substr(start, end - start)), terminal_columns);
}

TEST(FixList, HasARowForEachThingTheInventoryShouldMend) {
    plan::Checked checked = a_survey();
    checked.findings = {finding(Severity::set_aside, "trees", 200, "no coordinates"),
                        finding(Severity::doubtful, "trees", 7, "range"),
                        finding(Severity::set_aside, "trees", 9, "no tree"),
                        finding(Severity::set_aside, "passes", 3, "not a number")};
    checked.trees.rows[4].dbh.reset();
    checked.trees.rows[99].stem.easting = 101.0;  // farther than two ranges from the only watch
    checked.trees.rows[99].height.reset();
    const geo::Table table = fix_list(checked);
    ASSERT_EQ(table.rows.size(), 3U);
    EXPECT_EQ(table.rows[0], (std::vector<std::string>{"trees.csv", "6", "T4", "dbh_cm", "", "not told",
                                                       "find out its trunk diameter and write it here"}));
    EXPECT_EQ(table.rows[1],
              (std::vector<std::string>{"trees.csv", "7", "T5", "field", "value", "range", "say range"}));
    EXPECT_EQ(table.rows[2][2], "");
}

TEST(FixList, NamesEachRowThatSaysTheSameAndEachOnce) {
    plan::Checked checked = a_survey();
    core::Finding unread = finding(Severity::doubtful, "trees", 4, "unknown condition");
    unread.place.field = "condition";
    unread.rows = 3;
    unread.all_rows = {4, 7, 90};
    checked.findings = {unread};
    for (const std::size_t row : {4U, 7U, 90U})
        checked.trees.rows[row - 2].condition.reset();
    const geo::Table table = fix_list(checked);
    ASSERT_EQ(table.rows.size(), 3U);
    EXPECT_EQ(table.rows[1], (std::vector<std::string>{"trees.csv", "7", "T5", "condition", "value",
                                                       "unknown condition", "say unknown condition"}));
    EXPECT_EQ(table.rows[2][1], "90");
}

TEST(FixList, OfAScreeningHeedsEveryTree) {
    plan::Checked checked = a_survey();
    checked.trees.rows[99].stem.easting = 5000.0;  // nobody could see it from the only watch
    checked.trees.rows[99].height.reset();
    EXPECT_TRUE(fix_list(checked).rows.empty());
    checked.screening = true;
    ASSERT_EQ(fix_list(checked).rows.size(), 1U);
    EXPECT_EQ(fix_list(checked).rows[0][2], "T99");
}

}  // namespace
}  // namespace roostward::report
