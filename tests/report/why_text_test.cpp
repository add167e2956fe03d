#include "roostward/report/why_text.hpp"

#include <gtest/gtest.h>

#include "report/finished.hpp"
#include "roostward/core/error.hpp"

namespace roostward::report {
namespace {

void expect_says(const std::string& text, const std::string& words) {
    EXPECT_NE(text.find(words), std::string::npos) << words << "\nis not in\n" << text;
}

TEST(Why, OfANeighbourSaysWhatMakesTheDifference) {
    const std::string text = why_text(three_trees(), "0002");
    expect_says(text, "0002 · rank 2 of 2");
    expect_says(text,
                "0001, 20 m to the W: site 1, rank 1 of 2. It scores 0.50 against 0.20 here:\n  flight "
                "density +0.30.");
    expect_says(text, "ruled out or were not watched: 1.");
    expect_says(text, "Nobody has checked: roads.");
}

TEST(Why, TakesTheScoreApart) {
    const std::string text = why_text(three_trees(), "0001");
    expect_says(text, "Its score of 0.50 is made of");
    expect_says(text, "flight density  1234 u                   50 %     +0.60\n");
}

TEST(Why, OfATreeThatIsRuledOutGivesAllReasonsAndTheNearestSite) {
    const std::string text = why_text(three_trees(), "0003");
    expect_says(text, "0003 · ruled out");
    expect_says(text, "- ruled out: It is too thin.");
    expect_says(text, "0001, 25 m to the W: site 1");
}

TEST(Why, NamesTreesThatLookAlikeWhereThereIsNone) {
    try {
        (void)why_text(three_trees(), "2");
        FAIL() << "there is no tree 2";
    } catch (const core::Error& error) {
        EXPECT_EQ(error.fault(), core::Fault::usage);
        expect_says(error.what(), "it has \"0002\"");
    }
}

TEST(Why, RefusesANewerPlanAndWhatIsNone) {
    FinishedPlan plan = three_trees();
    EXPECT_NO_THROW(require_our_format(plan));
    plan.plan = core::Object{{"program", "roostward"}, {"format", 2}};
    EXPECT_THROW(require_our_format(plan), core::Error);
    plan.plan = core::Object{{"name", "something else"}};
    EXPECT_THROW(require_our_format(plan), core::Error);
}

}  // namespace
}  // namespace roostward::report
