#include "roostward/report/choice_words.hpp"

#include <gtest/gtest.h>

#include <string>

namespace roostward::report {
namespace {

using siting::Shared;
using siting::Wish;

/// Three trees 20 m apart; the first is site 1.
struct Three {
    plan::Plan plan;

    Three() {
        plan.settings.choice.sites = 1;
        plan.choice.proven = true;
        for (std::size_t i = 0; i < 3; ++i) {
            trees::Tree tree;
            tree.id = "T" + std::to_string(i);
            tree.stem = {20.0 * static_cast<double>(i), 0.0};
            tree.owner = "Council";
            plan.trees.rows.push_back(tree);
            siting::Candidate candidate;
            candidate.rank = i + 1;
            candidate.enough_evidence = true;
            plan.candidates.push_back(candidate);
        }
        plan.candidates[0].site = 1;
        plan.chosen = {0};
    }
    [[nodiscard]] std::string why_not(std::size_t tree) const { return why_not_chosen(plan, tree); }
};

TEST(Outcome, SaysWhetherAnotherSetIsBetter) {
    Three three;
    EXPECT_EQ(outcome(three.plan),
              "1 site chosen. By these figures no other set that keeps the rules scores more.");
    three.plan.choice = {};
    three.plan.choice.total_score = 2.0;
    three.plan.choice.bound = 2.016;
    EXPECT_EQ(outcome(three.plan),
              "1 site chosen. Another set that keeps the rules may score up to 0.8 % higher: the search was "
              "cut short.");
}

TEST(Outcome, SaysWhatKeepsTheNumberDown) {
    Three three;
    three.plan.settings.choice.sites = 4;
    three.plan.settings.choice.budget = 500.0;
    three.plan.choice.spent = 450.0;
    three.plan.choice.too_near = 1;
    three.plan.choice.too_dear = 2;
    three.plan.choice.full = {{{Shared::owner, 1}, "council", 3}, {{Shared::zone, 2}, "", 1}};
    EXPECT_EQ(
        outcome(three.plan),
        "1 of the 4 sites asked for: 1 tree stands too near to a chosen one; at most 1 of owner \"council\" "
        "keeps 3 trees out; at most 2 of zone not told keeps 1 tree out; 2 trees cost more than is left of "
        "the "
        "budget. By these figures no other set that keeps the rules scores more. The sites cost 450 of the "
        "budget "
        "of "
        "500.");
}

TEST(WhyNotChosen, NamesTheRule) {
    Three three;
    siting::ChoiceSettings& rules = three.plan.settings.choice;
    EXPECT_EQ(three.why_not(1), "Not chosen: 20 m from site 1 (T0), closer than 30 m.");
    three.plan.candidates[0].rank = 2;
    three.plan.candidates[1].rank = 1;
    EXPECT_EQ(three.why_not(1),
              "Not chosen: 20 m from site 1 (T0), closer than 30 m; without it the set scores more.");
    EXPECT_EQ(three.why_not(2), "Not chosen: a better tree took the one site asked for.");
    rules.at_most = {{Shared::owner, 1}};
    EXPECT_EQ(three.why_not(2), "Not chosen: owner \"council\" has the 1 site that at_most allows.");
    rules.at_most.clear();
    rules.budget = 100.0;
    EXPECT_EQ(three.why_not(2), "Not chosen: its cost is not told, and there is a budget.");
    three.plan.trees.rows[2].cost = 60.0;
    three.plan.choice.spent = 70.0;
    EXPECT_EQ(three.why_not(2), "Not chosen: it costs 60, and 30 is left of the budget.");
    three.plan.candidates[2].enough_evidence = false;
    EXPECT_EQ(three.why_not(2).find("Not chosen: it was watched for 0.00 effective hours"), 0U)
        << three.why_not(2);
    three.plan.candidates[2].wish = Wish::never;
    EXPECT_EQ(three.why_not(2), "Not chosen: the site file says never.");
}

TEST(WhyChosen, MarksWhatMustBe) {
    siting::Candidate candidate;
    candidate.site = 2;
    candidate.enough_evidence = true;
    EXPECT_EQ(why_chosen(candidate), "Chosen as site 2.");
    candidate.wish = Wish::must;
    EXPECT_EQ(why_chosen(candidate), "Chosen as site 2: the site file says that it must be.");
    candidate.enough_evidence = false;
    EXPECT_NE(why_chosen(candidate).find("too little flight"), std::string::npos);
}

}  // namespace
}  // namespace roostward::report
