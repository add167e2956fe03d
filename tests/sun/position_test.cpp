#include "roostward/sun/position.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include "sun/examples.hpp"

namespace roostward::sun {
namespace {

using core::Celsius;
using core::Degrees;
using core::Instant;
using examples::moment;
using examples::place;

/// Half a unit of the fifth place, as printed.
constexpr double printed = 0.5e-5;

// Meeus, Astronomical Algorithms, 2nd ed. 1998, example 25.a: 1992-10-13, 0 h dynamical time.
TEST(ApparentSun, EqualsMeeusToHisPrintedDigits) {
    const ApparentSun sun = apparent_sun(*moment("1992-10-13T00:00:00Z") - terrestrial_time_ahead);
    // He rounds every step to five places, so that his fifth place of the longitude is off by one.
    EXPECT_NEAR(sun.longitude.value(), 199.90895, 2 * printed);
    EXPECT_NEAR(sun.right_ascension.value(), 198.38083, printed);
    EXPECT_NEAR(sun.declination.value(), -7.78507, printed);
    EXPECT_NEAR(sun.distance.value(), 0.99766, printed);
}

// The same book, example 28.b: the equation of time of that moment is 13 min 42.7 s, by the full series. The
// short one may be 0.01° off, 2.4 s. A minute of dynamical time more or less changes it by 0.01 s.
TEST(SolarTime, IsAheadOfMeanTimeAsMeeusHasIt) {
    const core::Hours at_midnight = solar_time(*moment("1992-10-13T00:00:00Z"), Degrees(0.0));
    EXPECT_NEAR(at_midnight.value() * 3600.0, 13 * 60 + 42.7, 2.4);
}

// Reda & Andreas 2004, Solar Position Algorithm for Solar Radiation Applications, NREL/TP-560-34302, the
// worked example. They sum the full series; ours is the short one, good to 0.01°.
TEST(Position, EqualsTheWorkedExampleOfReda) {
    const Instant instant = *moment("2003-10-17T19:30:30Z");
    const auto golden = place(39.742476, -105.1786);
    const ApparentSun sun = apparent_sun(instant);
    EXPECT_NEAR(hour_angle(sun, instant, golden.longitude).value(), 11.105902, 0.01);
    EXPECT_NEAR(sun.distance.value(), 0.996542, 1e-5);

    const SunPosition bare = position(instant, golden);
    EXPECT_NEAR(90.0 - bare.elevation.value(), 50.127954, 0.01);
    const SunPosition seen = position(instant, golden, {Hectopascals(820.0), Celsius(11.0)});
    EXPECT_NEAR(90.0 - seen.elevation.value(), 50.111622, 0.01);
    EXPECT_NEAR(seen.azimuth.value(), 194.340241, 0.01);
    // Refraction alone to the printed digits, each of the two rounded to a millionth.
    EXPECT_NEAR((seen.elevation - bare.elevation).value(), 50.127954 - 50.111622, 1e-6);
}

/// The angle between two places in the sky.
Degrees apart(const SunPosition& a, const SunPosition& b) {
    constexpr double radian = std::numbers::pi / 180.0;
    const double up = std::sin((a.elevation - b.elevation).value() * radian / 2);
    const double round = std::sin((a.azimuth - b.azimuth).value() * radian / 2);
    return Degrees(
        2 / radian *
        std::asin(std::sqrt(up * up + std::cos(a.elevation.value() * radian) *
                                          std::cos(b.elevation.value() * radian) * round * round)));
}

// PyEphem at 1,000 random places and moments: tests/reference/sun/SOURCE.
TEST(Position, EqualsTheAstronomyLibrary) {
    const auto rows = examples::reference_rows("sun/positions.csv");
    ASSERT_EQ(rows.size(), 1000);
    Degrees farthest;
    for (const examples::Row& row : rows) {
        const SunPosition ours = position(*moment(row[0]), place(std::stod(row[1]), std::stod(row[2])));
        const SunPosition theirs{Degrees(std::stod(row[4])), Degrees(std::stod(row[5]))};
        const Degrees off = apart(ours, theirs);
        EXPECT_LT(off, Degrees(0.01)) << row[0] << " at " << row[1] << ' ' << row[2];
        farthest = std::max(farthest, off);
    }
    RecordProperty("largest_difference_degrees", std::to_string(farthest.value()));
}

// The almanacs' 34′ for the horizon (Meeus, chapter 15): what stands 34′ below it is seen on it.
TEST(Refraction, IsThirtyFourMinutesAtTheHorizon) {
    EXPECT_NEAR(refraction(Degrees(-34.0 / 60.0), Air{}).value() * 60.0, 34.0, 0.5);
    EXPECT_EQ(refraction(Degrees(-0.9), Air{}), Degrees(0.0));
    EXPECT_EQ(refraction(Degrees(5.0), no_air), Degrees(0.0));
    EXPECT_NEAR(refraction(Degrees(90.0), Air{}).value(), 0.0, 1e-4);
}

TEST(Position, SouthMirrorsNorth) {
    ApparentSun sun{Degrees(0.0), Degrees(0.0), Degrees(17.0), Degrees(0.0), AstronomicalUnits(1.0)};
    const SunPosition north = SeenFrom(Degrees(50.0), sun).under(Degrees(31.0), no_air);
    sun.declination = Degrees(-17.0);
    const SunPosition south = SeenFrom(Degrees(-50.0), sun).under(Degrees(31.0), no_air);
    EXPECT_NEAR(north.elevation.value(), south.elevation.value(), 1e-12);
    EXPECT_NEAR(core::normalised(Degrees(180.0) - north.azimuth).value(), south.azimuth.value(), 1e-12);
}

TEST(Position, AtThePolesAndAcrossTheDateLine) {
    const Instant instant = *moment("2031-06-21T12:00:00Z");
    EXPECT_NEAR(position(instant, place(90.0, 0.0)).elevation.value(), 23.44, 0.01);
    EXPECT_NEAR(position(instant, place(-90.0, 0.0)).elevation.value(), -23.44, 0.01);
    const SunPosition west = position(instant, place(-17.0, -180.0));
    const SunPosition east = position(instant, place(-17.0, 180.0));
    EXPECT_NEAR(apart(west, east).value(), 0.0, 1e-9);
}

}  // namespace
}  // namespace roostward::sun
