#include "roostward/report/flight_words.hpp"

#include <gtest/gtest.h>

#include "report/one_site.hpp"
#include "roostward/report/terminal.hpp"
#include "roostward/report/words.hpp"

namespace roostward::report {
namespace {

siting::Candidate watched(double flights, std::optional<activity::Range> range) {
    siting::Candidate candidate;
    candidate.activity.watched = true;
    candidate.activity.watch_hours = core::Hours(2.14);
    candidate.activity.evenings_watched = 3;
    candidate.activity.evenings_used = 2;
    candidate.activity.flight_density = 2.9;  // 116 flights an hour, were it even for 20 m around
    candidate.flights = {flights, flights == 0.0, range};
    return candidate;
}

TEST(FlightThere, TellsTheFigureWithItsRangeAndWhatItRestsOn) {
    EXPECT_EQ(
        flight_there(watched(34.2, activity::Range{22.0, 58.0})),
        "Flights an hour within 20 m: about 35 (20 to 60); flown on 2 of 3 watched evenings, in 2.1 hours of "
        "effective watching.");
    EXPECT_NE(flight_there(watched(34.2, std::nullopt)).find("about 30 (range not known);"),
              std::string::npos);
}

TEST(FlightThere, OfATreeWhereNothingWasSeenTellsTheMostThatMayFly) {
    siting::Candidate candidate = watched(0.0, activity::Range{0.0, 1.7});
    candidate.activity.evenings_used = 0;
    EXPECT_EQ(flight_there(candidate),
              "No flight came within 20 m (none seen, at most about 1.8 an hour); flown on 0 of 3 watched "
              "evenings, "
              "in 2.1 hours of effective watching.");
    EXPECT_EQ(flights_in_words({0.0, true, std::nullopt}), "none seen");
}

TEST(FlightThere, NeverSaysZeroOfZeroEvenings) {
    siting::Candidate candidate = watched(3.0, activity::Range{0.0, 9.0});
    candidate.activity.evenings_watched = candidate.activity.evenings_used = 0;
    const std::string text = flight_there(candidate);
    EXPECT_EQ(text.find("0 of 0"), std::string::npos) << text;
    EXPECT_NE(text.find("on no evening for long"), std::string::npos) << text;
}

plan::Plan a_plan() {
    plan::Plan plan = testing::one_site();
    plan.candidates[0].activity = watched(0.0, std::nullopt).activity;
    plan.candidates[0].flights = {34.2, false, activity::Range{22.0, 58.0}};
    plan.candidates[0].score = 0.9234;
    plan.candidates[0].stays_chosen = 26.0 / 27.0;
    plan.trees.rows[0].condition = trees::Condition::fair;
    plan.certainty.evenings = 3;
    plan.candidates[1].activity.watched = true;
    return plan;
}

// How much flies here, and whether the tree would be chosen again, are two questions.
TEST(PlanText, KeepsTheTwoQuestionsApart) {
    const std::string text = plan_text(a_plan(), "out");
    EXPECT_NE(text.find("   1    1 T7                 35 (20–60)    2 of 3   2.1 h fair      Tilia cor"),
              std::string::npos)
        << text;
    EXPECT_NE(text.find("How steady is the choice (not: how sure)? Of 27 ways to re-draw three evenings"),
              std::string::npos)
        << text;
    EXPECT_NE(text.find("site 1 in 26."), std::string::npos) << text;
    for (const char* gone : {"0.92", "96", "Firm", "0 of 0"})
        EXPECT_EQ(text.find(gone), std::string::npos) << gone << text;
}

TEST(PlanText, SaysThatTwoEveningsTellNothingOfTheChoice) {
    plan::Plan plan = a_plan();
    plan.certainty.evenings = 2;
    EXPECT_NE(plan_text(plan, "out").find("Whether they would be chosen again is not known"),
              std::string::npos);
}

}  // namespace
}  // namespace roostward::report
