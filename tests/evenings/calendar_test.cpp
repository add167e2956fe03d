#include "roostward/evenings/calendar.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>

#include "roostward/core/error.hpp"
#include "roostward/io/times.hpp"
#include "sun/examples.hpp"

namespace roostward::evenings {
namespace {

using core::Date;
using std::chrono::April, std::chrono::August, std::chrono::June, std::chrono::March, std::chrono::May,
    std::chrono::November, std::chrono::October, std::chrono::December, std::chrono::January;
using std::chrono::days, std::chrono::hours, std::chrono::minutes, std::chrono::seconds, std::chrono::year;

/// A place with the clock on its wall. Animals that are about from April to October, in the south from
/// October to April, as bats are in the box profiles.
struct Site {
    explicit Site(core::GeographicPoint where, const std::string& zone) : place(where), wall(zone) {
        profile.active_north = {{April, October}, {}};
        profile.active_south = {{October, April}, {}};
    }

    [[nodiscard]] Dates dates(const Ask& ask, const Settings& settings = {}) const {
        return dates_of(ask, settings, {place, profile, counted, clock});
    }
    [[nodiscard]] std::string refusal(const Ask& ask, const Settings& settings = {}) const {
        try {
            (void)dates(ask, settings);
        } catch (const core::Error& error) {
            EXPECT_EQ(error.fault(), core::Fault::usage);
            return error.what();
        }
        return "taken";
    }

    core::GeographicPoint place;
    io::SiteClock wall;
    siting::Profile profile;
    survey::HoursCounted counted;
    LocalClock clock = [this](Date date, minutes time) { return wall.instant_at(date, time); };
};

Site park() {
    return Site(examples::place(52.298, -1.897), "Europe/London");
}

Date date(int y, std::chrono::month m, unsigned d) {
    return year(y) / m / std::chrono::day(d);
}

Date date_in(const std::string& text) {
    const auto read = io::read_time(text, io::DateOrder::unknown);
    return io::value_in(read)->date.value();
}

std::vector<std::string> dates_in(const Dates& all) {
    std::vector<std::string> texts;
    for (const EveningToCome& evening : all.evenings)
        texts.push_back(core::to_text(evening.evening));
    for (const SpareEvening& evening : all.spare)
        texts.push_back("spare " + core::to_text(evening.evening));
    return texts;
}

using Texts = std::vector<std::string>;

#define EXPECT_SAYS(text, words) EXPECT_NE((text).find(words), std::string::npos) << (text)

// tests/reference/evenings/SOURCE: PyEphem, and zones by Python's zoneinfo. Half a minute of rounding, and 8
// s of our sun.
TEST(Calendar, SunsetsAreThoseOfAnAstronomyLibraryOnTheClockOfThePlace) {
    const auto rows = examples::reference_rows("evenings/sunsets.csv");
    ASSERT_EQ(rows.size(), 25U);
    for (const examples::Row& row : rows) {
        const Site site(examples::place(std::stod(row[1]), std::stod(row[2])), row[0]);
        const EveningToCome evening = site.dates({date_in(row[3]), 1, 1, true}).evenings.at(0);
        EXPECT_EQ(core::to_text(evening.evening), row[3]);
        EXPECT_LE(std::chrono::abs(evening.sunset - examples::moment(row[4]).value()), seconds(38)) << row[0];
        EXPECT_EQ(evening.sunset - evening.begin, minutes(15));
        EXPECT_EQ(evening.end - evening.sunset, minutes(90));
        const std::string shown = site.wall.local_text(evening.sunset);
        EXPECT_EQ(shown.substr(0, 14) + shown.substr(19), row[5].substr(0, 14) + row[5].substr(19)) << row[0];
    }
}

TEST(Calendar, BeginsTenMinutesBeforeTheFirstUsuallyFly) {
    Site site = park();
    site.profile.first_flight = siting::Sourced{minutes(40), {}};
    EveningToCome evening = site.dates({date(2026, June, 12), 1, 1, false}).evenings.at(0);
    EXPECT_EQ(evening.begin - evening.sunset, minutes(30));
    EXPECT_EQ(evening.end - evening.sunset, minutes(90));
    site.profile.first_flight = siting::Sourced{minutes(0), {}};
    site.counted.before_sunset = minutes(5);
    evening = site.dates({date(2026, June, 12), 1, 1, false}).evenings.at(0);
    EXPECT_EQ(evening.sunset - evening.begin, minutes(5)) << "no hour that does not count";
}

TEST(Calendar, EveningsAreAWeekApartAndTheFirstIsSettled) {
    const Dates all = park().dates({date(2026, June, 12), 3, 2, false});
    EXPECT_EQ(dates_in(all), (Texts{"2026-06-12", "2026-06-19", "2026-06-26", "spare 2026-07-03"}));
    EXPECT_FALSE(all.evenings[0].provisional);
    EXPECT_TRUE(all.evenings[1].provisional && all.evenings[2].provisional);
    EXPECT_TRUE(all.evenings[0].rounds.empty());
}

// 2026-06-12 is a Friday.
TEST(Calendar, KeepsToTheDaysOnWhichPeopleHaveTime) {
    Settings settings;
    settings.days = {std::chrono::Saturday, std::chrono::Wednesday};
    settings.spare = 0;
    EXPECT_EQ(dates_in(park().dates({date(2026, June, 12), 3, 1, false}, settings)),
              (Texts{"2026-06-13", "2026-06-20", "2026-06-27"}))
        << "a Wednesday would be but four days later";
    settings.every = days(3);
    EXPECT_EQ(dates_in(park().dates({date(2026, June, 12), 3, 1, false}, settings)),
              (Texts{"2026-06-13", "2026-06-17", "2026-06-20"}));
    settings.days = {std::chrono::Monday};
    EXPECT_EQ(dates_in(park().dates({date(2026, March, 30), 1, 1, true}, settings)), Texts{"2026-03-30"});
}

TEST(Calendar, KeepsToTheSeasonOfItsHemisphere) {
    const std::string early = park().refusal({date(2026, March, 20), 1, 1, false});
    EXPECT_SAYS(early, "2026-03-20");
    EXPECT_SAYS(early, "April to October");
    EXPECT_SAYS(early, "--anyway");
    EXPECT_EQ(park().dates({date(2026, March, 20), 1, 1, true}).evenings.size(), 1U);

    const std::string late = park().refusal({date(2026, October, 16), 3, 1, false});
    EXPECT_SAYS(late, "only 3 of 4 evenings");
    Settings settings;
    settings.spare = 0;
    EXPECT_EQ(dates_in(park().dates({date(2026, October, 16), 3, 1, false}, settings)),
              (Texts{"2026-10-16", "2026-10-23", "2026-10-30"}));
    settings.days = {std::chrono::Friday};
    EXPECT_EQ(dates_in(park().dates({date(2026, March, 30), 1, 1, false}, settings)), Texts{"2026-04-03"})
        << "March has no Friday left, so that its end does not matter";

    const Site south(examples::place(-36.85, 174.76), "Pacific/Auckland");
    EXPECT_EQ(south.dates({date(2026, December, 20), 2, 1, false}).evenings.size(), 2U);
    EXPECT_SAYS(south.refusal({date(2026, June, 20), 1, 1, false}), "October to April");
    const Site tropics(examples::place(1.35, 103.82), "Asia/Singapore");
    EXPECT_EQ(tropics.dates({date(2026, January, 5), 1, 1, false}).evenings.size(), 1U);
}

// Both nights on which the clocks of Europe change in 2026, 01:00 UTC: the hours are those of the sun, and
// the clock moves under them.
TEST(Calendar, HoursFollowTheSunWhereTheClockChanges) {
    const Site site = park();
    Settings settings;
    settings.every = days(1);
    settings.spare = 0;
    const auto texts = [&](Date start) {
        Texts shown;
        for (const EveningToCome& evening : site.dates({start, 2, 1, true}, settings).evenings)
            shown.push_back(site.wall.local_text(evening.begin));
        return shown;
    };
    EXPECT_EQ(texts(date(2026, March, 28)),
              (Texts{"2026-03-28T18:20:00+00:00", "2026-03-29T19:21:00+01:00"}));
    EXPECT_EQ(texts(date(2026, October, 24)),
              (Texts{"2026-10-24T17:39:00+01:00", "2026-10-25T16:37:00+00:00"}));
    settings.gate_closes = hours(18) + minutes(30);
    EXPECT_EQ(site.dates({date(2026, October, 24), 1, 1, true}, settings).evenings[0].end,
              site.clock(date(2026, October, 24), hours(18) + minutes(30)));
}

TEST(Calendar, EndsWhenTheGateCloses) {
    const Site site = park();
    Settings settings;
    const Ask ask{date(2026, June, 12), 1, 1, false};
    settings.gate_closes = hours(22);
    const Dates closed = site.dates(ask, settings);
    EXPECT_EQ(site.wall.local_text(closed.evenings[0].end), "2026-06-12T22:00:00+01:00");
    EXPECT_EQ(closed.spare[0].end, site.clock(closed.spare[0].evening.date, hours(22)));
    settings.gate_closes = minutes(30);
    EXPECT_EQ(site.wall.local_text(site.dates(ask, settings).evenings[0].end), "2026-06-12T22:59:00+01:00")
        << "half past midnight is after the hours";
    settings.gate_closes = hours(21) + minutes(30);
    EXPECT_SAYS(site.refusal(ask, settings), "half an hour of the evening of 2026-06-12");
}

TEST(Calendar, ATeamHasItsOwnHours) {
    const Site site = park();
    const core::Evening evening{date(2026, June, 12)};
    const Stretch all{site.clock(evening.date, hours(21)), site.clock(evening.date, hours(25))};
    const Stretch late = hours_of({"late", "", {}, hours(22), minutes(30)}, evening, all, site.clock);
    EXPECT_EQ(site.wall.local_text(late.begin), "2026-06-12T22:00:00+01:00");
    EXPECT_EQ(site.wall.local_text(late.end), "2026-06-13T00:30:00+01:00") << "after midnight";
    const Stretch whole = hours_of({"whole", "", {}, hours(18), hours(3)}, evening, all, site.clock);
    EXPECT_TRUE(whole.begin == all.begin && whole.end == all.end);

    Settings settings;
    settings.teams = {{"creek", "", {}, {}, hours(21) + minutes(30)}};
    const std::string short_of_time = site.refusal({evening.date, 1, 1, false}, settings);
    EXPECT_SAYS(short_of_time, "team creek");
    EXPECT_SAYS(short_of_time, "2026-06-12");
}

// 70° N: midnight sun in June, no sun in December. 63° N in June: sunset without civil dusk.
TEST(Calendar, SaysWhereThereIsNoDusk) {
    const Site north(examples::place(70.0, 23.3), "Europe/Oslo");
    EXPECT_SAYS(north.refusal({date(2026, June, 12), 1, 1, true}), "the sun does not set");
    EXPECT_SAYS(north.refusal({date(2026, December, 20), 1, 1, true}), "the sun does not set");
    EXPECT_EQ(north.dates({date(2026, August, 28), 1, 1, false}).evenings.size(), 1U);
    const Site white(examples::place(63.0, 10.0), "Europe/Oslo");
    EXPECT_SAYS(white.refusal({date(2026, June, 21), 1, 1, false}), "does not get dark");
}

TEST(Calendar, NonsenseIsASentenceEach) {
    const Date start = date(2026, June, 12);
    EXPECT_SAYS(park().refusal({start, 0, 1, false}), "give --count from 1 to 60");
    EXPECT_SAYS(park().refusal({start, 61, 1, false}), "61 evenings");
    EXPECT_SAYS(park().refusal({start, 1, 0, false}), "give --teams from 1 to 50");
    for (const Date wrong : {Date{}, date(2026, June, 31), date(2038, January, 1), date(1989, May, 1)})
        EXPECT_SAYS(park().refusal({wrong, 1, 1, false}), "give --start as a date");
    EXPECT_SAYS(park().refusal({date(2037, December, 30), 1, 1, true}), "before the end of 2037")
        << "its spare evening would be in 2038";
}

// tests/reference/evenings/SOURCE. A mean new moon is up to 14 hours off.
TEST(MoonAge, IsThatOfTheMeanMoon) {
    std::ifstream moons(ROOSTWARD_SOURCE_DIR "/tests/reference/evenings/new_moons.txt");
    std::size_t count = 0;
    for (std::string line; std::getline(moons, line); ++count) {
        const core::Instant new_moon = examples::moment(line.substr(0, 16) + ":00Z").value();
        EXPECT_NEAR(moon_age(new_moon + days(7)).value(), 7.0 * 24.0, 14.0) << line;
        EXPECT_NEAR(moon_age(new_moon + days(28)).value(), 28.0 * 24.0, 14.0) << line;
    }
    EXPECT_EQ(count, 24U);
}

}  // namespace
}  // namespace roostward::evenings
