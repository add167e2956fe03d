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
                "0001, 20 m to the W: site 1, rank 1 of 2. It scores 50 against 20 here: more\n  by flight "
                "density.");
    expect_says(text, "ruled out or were not watched: 1.");
    expect_says(text, "Nobody has checked: roads.");
}

// A tree to settle has no sentence in the files, but the same question is asked of it.
TEST(Why, TellsHowMuchFliesAtATreeThatIsNotRanked) {
    FinishedPlan plan = three_trees();
    const auto other = [&plan](core::Object properties) {
        plan.others = layer_of({tree_feature(40, std::move(properties))});
        return why_text(plan, "0003");
    };
    core::Object told = ruled_out_tree("0003", "lamp");
    EXPECT_EQ(other(told).find("within 20 m"), std::string::npos) << "nobody watched";
    for (const auto& [key, value] : {std::pair{"flights_per_hour", 34.2},
                                     {"flights_per_hour_low", 22.0},
                                     {"flights_per_hour_high", 58.0},
                                     {"evenings_used", 2.0},
                                     {"evenings_watched", 3.0},
                                     {"watch_hours", 2.14}})
        told.emplace_back(key, value);
    expect_says(other(told),
                "Flights an hour within 20 m: about 35 (20 to 60); flown on 2 of 3 watched\nevenings, in "
                "2.1 hours of effective watching.\n");
}

TEST(Why, TakesTheScoreApart) {
    const std::string text = why_text(three_trees(), "0001");
    expect_says(text, "Its score, of 100, is 50, made of");
    expect_says(text, "flight density  about 1000 u                 +60\n");
}

TEST(Why, SaysHowSureItIsAndWhatWouldChangeIt) {
    FinishedPlan plan = three_trees();
    plan.plan = core::Object{
        {"summary",
         core::Object{
             {"certainty", core::Object{{"evenings", 3}, {"redraws", 10}}},
             {"sites", core::List{core::Object{
                           {"tree", "0001"},
                           {"stays", "Stays chosen in 19 of the 27 ways."},
                           {"reserve", core::Object{{"tree", "0002"}, {"away_m", 20.2}}}}}},
             {"what_if",
              core::Object{
                  {"lines", core::List{core::Object{{"sites_lost", core::List{1}},
                                                    {"trees_in", core::List{"0002"}},
                                                    {"sentence", "If it rained: site 1 moves to 0002."}},
                                       core::Object{{"sites_lost", core::List{2}},
                                                    {"sentence", "If it snowed: site 2 falls out."}}}}}}}}};
    core::Object group_a = chosen_tree("0001", 1, 0.5, 1), also = ranked_tree("0002", 2, 0.2);
    group_a.emplace_back("group", "A");
    also.emplace_back("group", "A");
    also.emplace_back("stays_chosen", 0.3);
    plan.ranked = layer_of({tree_feature(0, group_a), tree_feature(20, also)});
    const std::string chosen = why_text(plan, "0001"), other = why_text(plan, "0002");
    expect_says(chosen,
                "- Stays chosen in 19 of the 27 ways.\n- Group A: it cannot be told apart from 0002.\n"
                "- If it is unsafe take 0002, 20 m off.\n");
    expect_says(chosen, "What would change it\n- If it rained: site 1 moves to 0002.\n");
    EXPECT_EQ(chosen.find("snowed"), std::string::npos) << chosen;
    expect_says(other, "- Chosen in 8 of the 27 ways to re-draw three evenings.\n");
    expect_says(other, "- If it rained: site 1 moves to 0002.\n");
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
