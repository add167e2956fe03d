#include "roostward/report/evidence_words.hpp"

#include <gtest/gtest.h>

#include <string>

#include "roostward/report/choice_words.hpp"

namespace roostward::report {
namespace {

using trees::State;

/// Trees of a survey from watches with ranges of 20, 33 and 60 m, that see too little at each in another way.
struct Thin {
    plan::Plan plan;

    Thin() {
        plan.settings.activity.min_watch = core::Hours(0.25);
        plan.reference_density = 1.0;
        for (const double range : {60.0, 20.0, 33.0}) {
            survey::Watch watch;
            watch.range = core::Metres(range);
            plan.survey.watches.push_back(watch);
        }
    }
    std::size_t add(State state, double flight, std::uint32_t used, std::uint32_t watched) {
        siting::Candidate candidate;
        candidate.verdict.state = state;
        candidate.activity.flight_density = flight;
        candidate.activity.watch_hours = core::Hours(0.3);
        candidate.activity.evenings_used = used;
        candidate.activity.evenings_watched = watched;
        if (state == State::can_be_chosen) candidate.rank = plan.ranked.size() + 1;
        const std::size_t tree = plan.candidates.size();
        if (candidate.rank) plan.ranked.push_back(tree);
        plan.candidates.push_back(candidate);
        plan.trees.rows.emplace_back();
        return tree;
    }
    std::string lacking(double flight, std::uint32_t used, std::uint32_t watched) {
        return evidence_lacking(plan, add(State::can_be_chosen, flight, used, watched));
    }
};

// exp(-0.5) of an hour from one range off: 0.61 h, more than the 0.125 h that an evening must have.
TEST(EvidenceLacking, SaysWhatAndWhatWouldMendIt) {
    Thin thin;
    EXPECT_EQ(
        thin.lacking(1.0, 0, 0),
        "it was watched for 0.30 effective hours in all, and on no evening for 0.05: too little to tell. To "
        "mend it, watch from within 30 m of it for 1 h on each of two more evenings.");
    EXPECT_EQ(thin.lacking(1.0, 0, 2),
              "evenings on which it was watched: 2. Nothing flew right beside it on any of them; flights an "
              "hour count what passes up to 20 m away, too. To tell, watch from within 30 m of it for 1 h on "
              "each of two more evenings.");
    EXPECT_EQ(
        thin.lacking(0.5, 1, 3),
        "evenings on which it was watched: 3. Something flew right beside it on one of them, which may be "
        "chance. To "
        "tell, watch from within 30 m of it for 1 h on each of two more evenings.");
    EXPECT_EQ(
        thin.lacking(0.09, 3, 3),
        "right beside it less than a tenth is flown of what is flown beside the best tree that can be "
        "chosen; "
        "flights an hour count what passes up to 20 m away, too. More watching helps only if more flies by "
        "then.");
}

TEST(EvidenceLacking, AsksForAsManyHoursAsAnEveningNeeds) {
    Thin thin;
    thin.plan.settings.activity.min_watch = core::Hours(5.0);  // 1 h an evening, of which an hour gives 0.61
    EXPECT_NE(thin.lacking(1.0, 0, 0).find("for 2 h on each"), std::string::npos);
}

TEST(EvidenceLacking, IsSaidOfTreesThatMayHoldABoxAndHaveTooLittle) {
    Thin thin;
    EXPECT_NE(evidence_lacking(thin.plan, thin.add(State::settle_first, 1.0, 0, 0)), "");
    EXPECT_EQ(evidence_lacking(thin.plan, thin.add(State::ruled_out, 1.0, 0, 0)), "");
    const std::size_t enough = thin.add(State::can_be_chosen, 1.0, 2, 3);
    thin.plan.candidates[enough].enough_evidence = true;
    EXPECT_EQ(evidence_lacking(thin.plan, enough), "");
}

TEST(Outcome, DoesNotSayThatNoTreeCanHoldABoxWhereTooLittleWasSeen) {
    Thin thin;
    (void)thin.lacking(1.0, 0, 0);
    (void)thin.lacking(0.8, 0, 0);
    (void)thin.lacking(0.05, 1, 2);
    EXPECT_EQ(
        outcome(thin.plan),
        "No tree can be chosen yet: 3 trees could hold a box, but too little was seen at them: 2 on no "
        "evening "
        "watched for long enough; 1 beside which less than a tenth is flown of what is flown beside the best "
        "of them. To mend it, "
        "watch from within 30 m of them for 1 h on each of two more evenings. For each tree, why says what "
        "it "
        "lacks.");
    thin.plan.ranked.clear();
    EXPECT_EQ(outcome(thin.plan), "No tree can be chosen. The lines below say which rule removes how many.");
}

TEST(Outcome, NamesTheWishThatKeepsTheOnlyTreeOut) {
    Thin thin;
    const std::size_t tree = thin.add(State::can_be_chosen, 1.0, 2, 2);
    thin.plan.candidates[tree].enough_evidence = true;
    thin.plan.choice.too_dear = 1;
    EXPECT_EQ(outcome(thin.plan), "No tree can be chosen: 1 tree costs more than is left of the budget.");
}

}  // namespace
}  // namespace roostward::report
