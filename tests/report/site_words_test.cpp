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
    EXPECT_EQ(
        caveat(a_plan()),
        "What this rests on: three evenings within nine days of June, 3.8 watch-hours, 75 % of the park not "
        "watched.");
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

TEST(Sureness, IsFirmFromNineInTenAndLikelyFromSixInTen) {
    plan::Plan plan = a_plan();
    plan.certainty.evenings = 3;
    const auto begins = [&plan](double stays, const char* word) {
        plan.candidates[0].stays_chosen = stays;
        return sureness(plan, 0).starts_with(word);
    };
    EXPECT_TRUE(begins(25.0 / 27.0, "Firm. Stays chosen in 25 of the 27 ways"));
    EXPECT_TRUE(begins(24.0 / 27.0, "Likely. "));
    EXPECT_TRUE(begins(17.0 / 27.0, "Likely. "));
    EXPECT_TRUE(begins(16.0 / 27.0, "A guess. "));
    plan.certainty.evenings = 2;
    EXPECT_EQ(sureness(plan, 0), "How sure is not known: fewer than three evenings.");
}

}  // namespace
}  // namespace roostward::report
