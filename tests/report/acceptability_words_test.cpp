#include "roostward/report/acceptability_words.hpp"

#include <gtest/gtest.h>

namespace roostward::report {
namespace {

siting::Certainty of(std::size_t evenings, std::size_t redraws) {
    siting::Certainty certainty;
    certainty.evenings = evenings;
    certainty.redraws = redraws;
    return certainty;
}

// Three evenings can be drawn anew in 3³ ways, four in 4⁴; six in 46,656, which nobody reads; of twelve 200
// are drawn.
TEST(ShareOfRedraws, CountsWaysThatPeopleCanPicture) {
    EXPECT_EQ(share_of_redraws(of(3, 10), 24.0 / 27.0), "24 of the 27 ways to re-draw three evenings");
    EXPECT_EQ(share_of_redraws(of(4, 35), 0.75), "192 of the 256 ways to re-draw four evenings");
    EXPECT_EQ(share_of_redraws(of(6, 462), 0.85), "85 of a hundred ways to re-draw six evenings");
    EXPECT_EQ(share_of_redraws(of(6, 462), 0.9999), "over 99 of a hundred ways to re-draw six evenings");
    EXPECT_EQ(share_of_redraws(of(12, 200), 0.85), "170 of 200 re-draws of the twelve evenings");
    EXPECT_EQ(share_of_redraws(of(2, 3), 0.75), "") << "one way in two is the same evening twice";
    EXPECT_EQ(short_share_of_redraws(of(3, 10), 24.0 / 27.0), "24 of 27");
    EXPECT_EQ(short_share_of_redraws(of(1, 1), 1.0), "");
}

// Ranks 2 and 3 cannot be told apart; the first is alone in its group, of which nothing is said.
TEST(AboutGroups, TellsOfNoGroupOfOne) {
    plan::Plan plan;
    plan.candidates.resize(3);
    plan.ranked = {0, 1, 2};
    for (std::size_t i = 0; i < 3; ++i)
        plan.candidates[i].group = i == 0 ? 1 : 2;
    plan.chosen = {0, 1};
    EXPECT_EQ(about_groups(plan), "Ranks of one group cannot be told apart: B 2–3.");
    EXPECT_EQ(shared_groups(plan), (std::vector<std::string>{"", "B"}));
    plan.chosen = {0};
    EXPECT_EQ(about_groups(plan), "");
}

}  // namespace
}  // namespace roostward::report
