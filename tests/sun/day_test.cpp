#include "roostward/sun/day.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <ostream>
#include <string>

#include "roostward/sun/position.hpp"
#include "sun/examples.hpp"

namespace roostward::sun {
namespace {

using core::Degrees;
using core::Evening;
using core::Instant;
using examples::moment;
using examples::place;
using examples::seconds_between;
using std::chrono::day;
using std::chrono::hours;
using std::chrono::month;
using std::chrono::year;

struct PrintedDay {
    Evening evening;
    core::GeographicPoint place;
    std::string sunrise;
    std::string sunset;
    friend std::ostream& operator<<(std::ostream& out, const PrintedDay& of) {
        return out << core::to_text(of.evening);
    }
};

// Reda & Andreas 2004, NREL/TP-560-34302, table A2.1 (longitude 0, UT).
const PrintedDay reda_table[] = {
    {{year(1994) / 1 / 2}, place(35, 0), "1994-01-02T07:08:12.8Z", "1994-01-02T16:59:55.9Z"},
    {{year(1996) / 7 / 5}, place(-35, 0), "1996-07-05T07:08:15.4Z", "1996-07-05T17:01:04.5Z"},
    {{year(2004) / 12 / 4}, place(-35, 0), "2004-12-04T04:38:57.1Z", "2004-12-04T19:02:02.5Z"}};

class SunriseAndSunset : public testing::TestWithParam<PrintedDay> {};

TEST_P(SunriseAndSunset, EqualTheTable) {
    const PrintedDay& printed = GetParam();
    const Nightfall evening = nightfall(printed.evening, printed.place);
    EXPECT_EQ(evening.night, Night::usual);
    const auto sunrise = sunrise_before(evening.noon, printed.place);
    ASSERT_TRUE(sunrise && evening.sunset);
    EXPECT_NEAR(seconds_between(*moment(printed.sunrise), *sunrise), 0.0, 30.0);
    EXPECT_NEAR(seconds_between(*moment(printed.sunset), *evening.sunset), 0.0, 30.0);
}

INSTANTIATE_TEST_SUITE_P(RedaAndAndreas, SunriseAndSunset, testing::ValuesIn(reda_table));

// The same report's worked example, UTC-7: sunrise 06:12:43, sunset 17:20:19. It works through one day of UT,
// 17 October, which here holds the sunrise of the 17th and the sunset of the 16th.
TEST(Nightfall, EqualsTheWorkedExampleOfReda) {
    const auto golden = place(39.742476, -105.1786);
    const Nightfall before = nightfall(Evening{year(2003) / 10 / 16}, golden);
    ASSERT_TRUE(before.sunset);
    EXPECT_NEAR(seconds_between(*moment("2003-10-17T00:20:19Z"), *before.sunset), 0.0, 30.0);
    const auto sunrise = sunrise_before(nightfall(Evening{year(2003) / 10 / 17}, golden).noon, golden);
    ASSERT_TRUE(sunrise);
    EXPECT_NEAR(seconds_between(*moment("2003-10-17T13:12:43Z"), *sunrise), 0.0, 30.0);
}

struct PrintedDusk {
    double latitude;
    double equinox, summer, winter;  ///< minutes from sunset to civil dusk
};

// The trade's table of minutes from sunset to civil dusk; calculated there from the definitions (centre at
// -0.833° and -6°) with the sun at ±23.44°, as it stood at the solstices of 2025. Nutation takes 0.15 min off
// the longest of them within six years. Whole minutes are compared as rounded, halves to a quarter.
TEST(Nightfall, DuskComesAfterTheMinutesOfTheTable) {
    const PrintedDusk table[] = {
        {0.0, 21, 22.5, 22.5}, {37.8, 26, 31, 29}, {51.5, 33, 48, 40}, {60.0, 42, 107, 58}};
    const auto expect = [](Evening evening, double latitude, double minutes) {
        const Nightfall found = nightfall(evening, place(latitude, 0.0));
        ASSERT_TRUE(found.sunset && found.civil_dusk);
        const double apart = seconds_between(*found.sunset, *found.civil_dusk) / 60.0;
        const double rounding = minutes == std::floor(minutes) ? 0.5 : 0.25;
        EXPECT_NEAR(apart, minutes, rounding) << core::to_text(evening) << " at " << latitude;
    };
    for (const PrintedDusk& row : table) {
        expect({year(2025) / 3 / 20}, row.latitude, row.equinox);
        expect({year(2025) / 6 / 21}, row.latitude, row.summer);
        expect({year(2025) / 12 / 21}, row.latitude, row.winter);
        expect({year(2025) / 12 / 21}, -row.latitude, row.summer);
        expect({year(2025) / 6 / 21}, -row.latitude, row.winter);
    }
}

// PyEphem at 1,000 random places and dates: tests/reference/sun/SOURCE. Where the sun grazes a level, 0.01°
// takes it long; elsewhere, 30 s.
TEST(Nightfall, EqualsTheAstronomyLibrary) {
    double farthest = 0.0;
    const auto compare = [&farthest](const std::optional<Instant>& ours, const std::string& theirs,
                                     const examples::Row& row) {
        ASSERT_EQ(ours.has_value(), !theirs.empty()) << row[2] << " at " << row[0] << ' ' << row[1];
        if (!ours) return;
        const double off = std::abs(seconds_between(*moment(theirs), *ours));
        EXPECT_LT(off, 30.0) << row[2] << " at " << row[0] << ' ' << row[1];
        farthest = std::max(farthest, off);
    };
    const auto rows = examples::reference_rows("sun/evenings.csv");
    ASSERT_EQ(rows.size(), 1000);
    for (const examples::Row& row : rows) {
        // An hour after noon, so that a noon a second late is the same noon.
        const Nightfall ours =
            nightfall(*moment(row[2]) + hours(1), place(std::stod(row[0]), std::stod(row[1])));
        EXPECT_NEAR(seconds_between(*moment(row[2]), ours.noon), 0.0, 5.0);
        compare(ours.sunset, row[3], row);
        compare(ours.civil_dusk, row[4], row);
    }
    RecordProperty("largest_difference_seconds", std::to_string(farthest));
}

// Tromsø (69.65° N): the polar night lasts from late November to mid January with twilight at noon, the
// midnight sun from late May to late July. Longyearbyen (78.22° N): no civil twilight from mid November to
// late January.
TEST(Nightfall, TellsTheKindsOfEvening) {
    const auto night_at = [](double latitude, double longitude, month m, unsigned d) {
        return nightfall(Evening{year(2031) / m / day(d)}, place(latitude, longitude));
    };
    EXPECT_EQ(night_at(51.5, 0.0, std::chrono::June, 21).night, Night::usual);

    const Nightfall white = night_at(63.0, 10.0, std::chrono::June, 21);
    EXPECT_EQ(white.night, Night::white);
    EXPECT_TRUE(white.sunset && !white.civil_dusk);

    const Nightfall light = night_at(69.65, 18.96, std::chrono::June, 21);
    EXPECT_EQ(light.night, Night::midnight_sun);
    EXPECT_TRUE(!light.sunset && !light.civil_dusk);

    const Nightfall sunless = night_at(69.65, 18.96, std::chrono::December, 21);
    EXPECT_EQ(sunless.night, Night::no_sun);
    EXPECT_TRUE(!sunless.sunset && sunless.civil_dusk);
    EXPECT_FALSE(sunrise_before(sunless.noon, place(69.65, 18.96)));

    EXPECT_EQ(night_at(78.22, 15.65, std::chrono::December, 21).night, Night::polar_night);
    EXPECT_EQ(night_at(-78.22, 15.65, std::chrono::December, 21).night, Night::midnight_sun);
}

TEST(Nightfall, BelongsToTheNightUntilTheNextNoon) {
    const auto kiritimati = place(1.87, -157.43);
    // Local clocks are UTC+14: the evening of 21 June there, by sunset at about 18:40.
    const Nightfall evening = nightfall(*moment("2031-06-21T04:30:00Z"), kiritimati);
    ASSERT_TRUE(evening.sunset);
    EXPECT_NEAR(seconds_between(*moment("2031-06-21T04:40:00Z"), *evening.sunset), 0.0, 600.0);
    for (const int later : {0, 6, 12, 16})
        EXPECT_EQ(nightfall(evening.noon + hours(later), kiritimati).noon, evening.noon);
    EXPECT_LT(nightfall(evening.noon - std::chrono::seconds(1), kiritimati).noon, evening.noon);
}

TEST(Light, ChangesAtSunsetAndAtDusk) {
    const auto park = place(51.5, -1.2);
    const Nightfall evening = nightfall(Evening{year(2031) / 6 / 12}, park);
    ASSERT_TRUE(evening.sunset && evening.civil_dusk);
    const std::chrono::seconds moment_later(1);
    EXPECT_EQ(light_at(*evening.sunset, park), Light::day);
    EXPECT_EQ(light_at(*evening.sunset + moment_later, park), Light::twilight);
    EXPECT_EQ(light_at(*evening.civil_dusk, park), Light::twilight);
    EXPECT_EQ(light_at(*evening.civil_dusk + moment_later, park), Light::dark);
}

}  // namespace
}  // namespace roostward::sun
