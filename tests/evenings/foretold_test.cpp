#include "foretold.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace roostward::evenings {
namespace {

using core::Hours;
using core::Metres;

/// A watch of two hours at the origin that sees 80 m, and so many passes straight over it to the east.
survey::Survey eastward(int passes) {
    survey::Survey survey;
    const core::Evening evening{std::chrono::year(2031) / 6 / 1};
    survey.evenings = {evening};
    survey::Watch watch;
    watch.path = {{0, 0}};
    watch.start = std::chrono::sys_days(evening.date) + std::chrono::hours(20);
    watch.end = watch.start + std::chrono::hours(2);
    watch.evening = evening;
    watch.range = Metres(40);
    survey.watches = {watch};
    survey.watch_evening = {0};
    for (int i = 0; i < passes; ++i) {
        survey::Flight flight;
        flight.watch = 0;
        flight.path = {{-20, 0}, {20, 0}};
        flight.length = Metres(80);
        survey.flights.push_back(flight);
    }
    return survey;
}

std::vector<double> at(const survey::Survey& survey, const std::vector<core::PlanePoint>& places) {
    return foretold(survey, activity::Effort(survey, Metres(7)), places, core::Threads{1});
}

// 24 passes in 2 h: 12 an hour, spread to the sides by 8 + 0.15 · 100 = 23 m, faded by e⁻¹.
TEST(Foretold, PassesGoOnStraightAheadAndBehind) {
    const auto felt = at(eastward(24), {{100, 0}, {-100, 0}, {100, 23}, {0, 100}, {260, 0}});
    const double ahead = 12.0 * std::exp(-1.0) / (23.0 * std::sqrt(2.0 * std::acos(-1.0)));
    EXPECT_NEAR(felt[0], ahead, 1e-9);
    EXPECT_NEAR(felt[1], ahead, 1e-9);
    EXPECT_NEAR(felt[2], ahead * std::exp(-0.5), 1e-9);
    EXPECT_EQ(felt[3], 0.0) << "to the side";
    EXPECT_EQ(felt[4], 0.0) << "too far";
}

TEST(Foretold, NothingIsForetoldWhereNothingPassed) {
    EXPECT_EQ(at(eastward(0), {{100, 0}}), std::vector<double>{0.0});
}

}  // namespace
}  // namespace roostward::evenings
