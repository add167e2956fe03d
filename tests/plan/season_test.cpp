#include "season.hpp"

#include <gtest/gtest.h>

namespace roostward::plan {
namespace {

using namespace std::chrono;

survey::Survey on(std::initializer_list<year_month_day> dates) {
    survey::Survey survey;
    for (const year_month_day date : dates)
        survey.evenings.push_back({date});
    return survey;
}

/// Small bats are about from April to October: common practice, no source.
siting::Profile bats() {
    siting::Profile profile;
    profile.active_north = {{April, October}, {}};
    profile.active_south = {{October, April}, {}};
    return profile;
}

constexpr core::GeographicPoint in_england{core::Degrees(-1.9), core::Degrees(52.3)};
constexpr core::GeographicPoint in_victoria{core::Degrees(145.0), core::Degrees(-37.8)};
constexpr core::GeographicPoint near_the_equator{core::Degrees(103.8), core::Degrees(1.3)};

TEST(ActiveSeason, IsMissedByEveningsInTheWinterOfTheHemisphere) {
    const survey::Survey january = on({2027y / January / 9, 2027y / January / 10});
    const auto north = out_of_season(january, bats(), in_england);
    ASSERT_TRUE(north);
    EXPECT_TRUE(north->all);
    EXPECT_TRUE(north->told.sentence.starts_with(
        "All evenings lie in January: outside the active season (April to October)."))
        << north->told.sentence;
    EXPECT_FALSE(out_of_season(january, bats(), in_victoria));
    EXPECT_TRUE(out_of_season(on({2026y / June / 9}), bats(), in_victoria)->all);
}

TEST(ActiveSeason, IsToldOfSomeEveningsToo) {
    const auto some =
        out_of_season(on({2026y / March / 31, 2026y / April / 1, 2026y / October / 31}), bats(), in_england);
    ASSERT_TRUE(some);
    EXPECT_FALSE(some->all);
    EXPECT_TRUE(some->told.sentence.starts_with("1 of 3 evenings lie in March")) << some->told.sentence;
}

TEST(ActiveSeason, IsNotKnownBetweenTheTropicsNorOfEveryAnimal) {
    const survey::Survey january = on({2027y / January / 9});
    EXPECT_FALSE(out_of_season(january, bats(), near_the_equator));
    EXPECT_FALSE(out_of_season(january, {}, in_england));
}

}  // namespace
}  // namespace roostward::plan
