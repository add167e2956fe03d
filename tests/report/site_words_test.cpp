#include "roostward/report/site_words.hpp"

#include <gtest/gtest.h>

namespace roostward::report {
namespace {

core::Evening evening(unsigned month, unsigned day) {
    return {core::Date{std::chrono::year(2026), std::chrono::month(month), std::chrono::day(day)}};
}

survey::Watch watch_of(double hours) {
    survey::Watch watch;
    watch.path = {{0.0, 0.0}};
    watch.end = watch.start + std::chrono::milliseconds(static_cast<long>(3.6e6 * hours));
    return watch;
}

/// The western quarter of an area of 100 × 100 m watched.
plan::Plan a_plan() {
    plan::Plan plan;
    core::Raster& flight = plan.surfaces.flight_density;
    flight.grid = {{0.0, 100.0}, core::Metres(5.0), 20, 20};
    flight.values.assign(400, 0.0F);
    for (std::size_t i = 0; i < 400; ++i)
        flight.known.push_back(i % 20 < 5 ? 1 : 0);
    plan.surroundings.allowed_area = {{{{0, 0}, {100, 0}, {100, 100}, {0, 100}, {0, 0}}, {}}};
    plan.survey.watches = {watch_of(2.5), watch_of(1.25)};
    plan.survey.evenings = {evening(6, 9), evening(6, 13), evening(6, 17)};
    plan.candidates.resize(4);
    plan.candidates[0].activity.watched = true;
    return plan;
}

TEST(Caveat, TellsEveningsHoursAndGround) {
    EXPECT_EQ(caveat(a_plan()),
              "What this rests on: three evenings within nine days of June, 3.8 hours of watching, 75 % of "
              "the park "
              "not watched.");
}

// 2.5 h of somebody who placed a flight, 1.25 h of a recorder.
TEST(Caveat, TellsHoursThatPlaceFlightsApartFromARecorders) {
    plan::Plan plan = a_plan();
    plan.survey.watches[1].seen_by = "recorder";
    plan.survey.flights.resize(2);
    plan.survey.flights[0].watch = 0;
    plan.survey.flights[1].watch = 1;
    plan.survey.flights[1].placed = false;
    EXPECT_NE(
        caveat(plan).find("2.5 hours of watching that places flights, 1.2 hours of recorders or hearing that "
                          "place none"),
        std::string::npos)
        << caveat(plan);
    plan.survey.flights[0].placed = false;
    EXPECT_NE(caveat(plan).find("3.8 hours of recorders or hearing that place no flight"), std::string::npos);
    plan.survey.flights.clear();
    plan.survey.watches[1].seen_by.clear();
    EXPECT_NE(caveat(plan).find(", 3.8 hours of watching,"), std::string::npos)
        << "a watch with nothing to note";
}

TEST(Caveat, TellsOneEveningTwoMonthsAndSeasonsApart) {
    plan::Plan plan = a_plan();
    plan.survey.evenings = {evening(6, 9)};
    EXPECT_NE(caveat(plan).find("one evening, 2026-06-09,"), std::string::npos);
    plan.survey.evenings = {evening(6, 20), evening(7, 10)};
    EXPECT_NE(caveat(plan).find("two evenings within 21 days of June and July,"), std::string::npos);
    plan.survey.evenings = {evening(5, 1), evening(9, 1)};
    EXPECT_NE(caveat(plan).find("two evenings from 2026-05-01 to 2026-09-01,"), std::string::npos);
}

TEST(Caveat, CountsTreesWhereNoAreaIsTold) {
    plan::Plan plan = a_plan();
    plan.surroundings.allowed_area.clear();
    plan.survey.watches.clear();
    EXPECT_NE(caveat(plan).find("no watch hours told, 3 of 4 trees not watched."), std::string::npos);
}

TEST(Sureness, TellsOfTheChoiceAndNotOfAFigure) {
    plan::Plan plan = a_plan();
    plan.certainty.evenings = 3;
    plan.candidates[0].stays_chosen = 25.0 / 27.0;
    EXPECT_EQ(sureness(plan, 0), "Stays chosen in 25 of the 27 ways to re-draw three evenings.");
    plan.certainty.evenings = 2;
    EXPECT_EQ(sureness(plan, 0), "Whether it would stay chosen is not known: fewer than three evenings.");
}

TEST(Health, TellsConditionAndWhatWasJudgedOfSafety) {
    trees::Tree tree;
    EXPECT_EQ(health(tree), "condition not told");
    tree.condition = trees::Condition::fair;
    EXPECT_EQ(health(tree), "fair condition");
    tree.hazard = trees::Hazard::possible;
    EXPECT_EQ(health(tree), "fair condition; failure possible, inventory without date");
    tree.inspected = core::Date{std::chrono::year(2026), std::chrono::March, std::chrono::day(1)};
    EXPECT_EQ(health(tree), "fair condition; failure possible, inventory of 2026-03-01");
}

}  // namespace
}  // namespace roostward::report
