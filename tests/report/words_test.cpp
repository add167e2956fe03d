#include "roostward/report/words.hpp"

#include <gtest/gtest.h>

#include "roostward/report/tally.hpp"

namespace roostward::report {
namespace {

plan::Plan a_tree_with_box_at(std::optional<core::Metres> distance) {
    plan::Plan plan;
    plan.trees.rows.resize(1);
    plan.candidates.resize(1);
    plan.candidates[0].box_distance = distance;
    return plan;
}

TEST(Why, SaysThatABoxHangsOnTheTreeItself) {
    const std::string sentence = "A box hangs on it already.";
    EXPECT_NE(why(a_tree_with_box_at(core::Metres(0.0)), 0).find(sentence), std::string::npos);
    EXPECT_EQ(why(a_tree_with_box_at(core::Metres(12.0)), 0).find(sentence), std::string::npos);
    EXPECT_EQ(why(a_tree_with_box_at(std::nullopt), 0).find(sentence), std::string::npos);
}

TEST(SentenceOf, TellsHowManyRowsSayTheSame) {
    core::Finding finding{
        core::Severity::doubtful, {"f", "trees", 3, "dbh_cm"}, "range", "30-45", "write one"};
    EXPECT_EQ(sentence_of(finding), "write one");
    finding.rows = 4;
    EXPECT_EQ(sentence_of(finding), "write one (4 rows; this is the first)");
}

}  // namespace
}  // namespace roostward::report
