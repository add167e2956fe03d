#include "roostward/report/compare_text.hpp"

#include <gtest/gtest.h>

#include "report/finished.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::report {
namespace {

std::string member(const Changes& changes) {
    return core::said(changes.title) + ": " + (changes.sentences.empty() ? "" : changes.sentences.front());
}

TEST(Compare, FindsNothingBetweenAPlanAndItself) {
    const Comparison comparison = compare(three_trees(), three_trees());
    EXPECT_FALSE(comparison.moved());
    EXPECT_TRUE(comparison.causes.empty());
}

TEST(Compare, TellsCausesByTheirKind) {
    FinishedPlan after = three_trees();
    after.plan = core::Object{
        {"version", "0.1.0"},
        {"seed", 2},
        {"summary", core::Object{{"evenings", core::List{core::Object{{"evening", "2026-06-10"}}}}}},
        {"parameters", core::List{core::Object{{"key", "weights.dark"}, {"value", 2.0}},
                                  core::Object{{"key", "suitability.min_dbh_cm"}, {"value", 30}}}},
        {"inputs", core::List{core::Object{{"role", "trees"}, {"file", "trees.csv"}, {"sha256", "bb"}}}},
        {"rows", core::List{core::Object{{"layer", "trees"}, {"used", 2}}}}};
    const Comparison comparison = compare(three_trees(), after);
    EXPECT_FALSE(comparison.moved()) << "causes alone move nothing";
    ASSERT_EQ(comparison.causes.size(), 5U);
    EXPECT_EQ(member(comparison.causes[0]), "Data: trees: trees.csv is another file than trees.csv was.");
    EXPECT_EQ(comparison.causes[0].sentences.at(1), "trees: 2 rows count instead of 3.");
    EXPECT_EQ(member(comparison.causes[1]), "Evenings: The evening of 2026-06-09 is gone.");
    EXPECT_EQ(member(comparison.causes[2]), "Weights: weights.dark is 2 instead of 1.");
    EXPECT_EQ(member(comparison.causes[3]), "Rules: suitability.min_dbh_cm is 30 instead of 25.");
    EXPECT_EQ(member(comparison.causes[4]), "The program: The seed is 2 instead of 1.");
}

TEST(Compare, TellsWhatMoved) {
    FinishedPlan after = three_trees();
    after.ranked = layer_of({tree_feature(20, chosen_tree("0002", 1, 0.4, 1))});
    after.others = layer_of({tree_feature(0, ruled_out_tree("0001", "lamp"))});
    const Comparison comparison = compare(three_trees(), after);
    ASSERT_EQ(comparison.effects.size(), 3U);
    EXPECT_EQ(
        comparison.effects[0].sentences.at(0),
        "0002 is site 1 and was not chosen (before: rank 2, score 20 of 100; now: rank 1, score 40 of 100).");
    EXPECT_EQ(comparison.effects[0].sentences.at(1),
              "0001 was site 1 and is not chosen (before: rank 1, score 50 of 100; now: ruled out (lamp)).");
    EXPECT_EQ(comparison.effects[1].sentences,
              (std::vector<std::string>{"0001: ruled out (lamp); before: can be chosen.",
                                        "0003: not in the inventory; before: ruled out (trunk too thin)."}));
    EXPECT_EQ(comparison.effects[2].sentences.at(0),
              "0002: rank 1 instead of 2, score 40 instead of 20 of 100.");
    EXPECT_NE(compare_text(comparison).find("choose other sites"), std::string::npos);
}

}  // namespace
}  // namespace roostward::report
