#include "roostward/sun/hours.hpp"

#include <gtest/gtest.h>

#include <chrono>
#include <cmath>
#include <stdexcept>
#include <vector>

#include "roostward/core/point.hpp"
#include "roostward/sun/position.hpp"
#include "sun/examples.hpp"

namespace roostward::sun {
namespace {

using core::Degrees;
using core::Hours;
using std::chrono::year;

using Horizon = std::vector<Degrees>;

const Horizon open_ground{Degrees(0.0)};

/// Trees of all heights all round, in sectors of 10°.
Horizon wood() {
    Horizon horizon;
    for (int sector = 0; sector < 36; ++sector)
        horizon.emplace_back(30.0 + 25.0 * std::sin(1.7 * sector) + 15.0 * std::cos(5.1 * sector));
    return horizon;
}

/// The sun minute by minute through 2031, by nothing but its position.
class MinuteByMinute {
 public:
    explicit MinuteByMinute(double latitude) : south_(latitude < 0.0) {
        const auto there = examples::place(latitude, 0.0);
        const core::Instant end = std::chrono::sys_days(year(2032) / 1 / 1);
        for (core::Instant now = std::chrono::sys_days(year(2031) / 1 / 1); now < end;
             now += std::chrono::minutes(1)) {
            const SunPosition seen = position(now, there, Air{});
            if (seen.elevation <= Degrees(0.0)) continue;
            const std::chrono::year_month_day date(std::chrono::floor<std::chrono::days>(now));
            minutes_.push_back(
                {seen, static_cast<unsigned>(date.month()), solar_time(now, there.longitude) >= Hours(14.0)});
        }
    }

    [[nodiscard]] FaceSun on_face(const Horizon& horizon, Degrees facing) const {
        FaceSun sun;
        for (const Minute& minute : minutes_) {
            const auto sectors = static_cast<double>(horizon.size());
            const auto sector = static_cast<std::size_t>(minute.sun.azimuth.value() * sectors / 360.0);
            if (minute.sun.elevation <= horizon[sector]) continue;
            if (core::turn_between(minute.sun.azimuth, facing) >= Degrees(90.0)) continue;
            const bool april_to_september = minute.month >= 4 && minute.month <= 9;
            Hours& half = april_to_september != south_ ? sun.summer_half : sun.winter_half;
            half = half + Hours(1.0 / 60.0 / (april_to_september ? 183 : 182));
            if (minute.late && minute.month == (south_ ? 1 : 7))
                sun.hot_afternoon = sun.hot_afternoon + Hours(1.0 / 60.0 / 31);
        }
        return sun;
    }

 private:
    struct Minute {
        SunPosition sun;
        unsigned month = 0;
        bool late = false;
    };
    bool south_;
    std::vector<Minute> minutes_;
};

void expect_near(const FaceSun& ours, const FaceSun& twin) {
    // One minute a day, the step of the twin.
    constexpr double minute = 1.0 / 60.0;
    EXPECT_NEAR(ours.summer_half.value(), twin.summer_half.value(), minute);
    EXPECT_NEAR(ours.winter_half.value(), twin.winter_half.value(), minute);
    EXPECT_NEAR(ours.hot_afternoon.value(), twin.hot_afternoon.value(), minute);
}

// A twin by brute force, whose positions are checked against an astronomy library in position_test.cpp.
TEST(SunHours, EqualTheCountOfMinutes) {
    for (const double latitude : {51.5, -37.8, 0.0, 68.0, -20.0}) {
        const SunPath path{Degrees(latitude)};
        const MinuteByMinute twin(latitude);
        for (const Horizon& horizon : {wood(), open_ground}) {
            const SunOverHorizon sun = path.over(horizon);
            for (const Degrees facing : {Degrees(0.0), Degrees(112.5), Degrees(180.0), Degrees(253.7)}) {
                SCOPED_TRACE(testing::Message() << "latitude " << latitude << ", facing " << facing.value()
                                                << ", " << horizon.size() << " sectors");
                expect_near(sun.on_face(facing), twin.on_face(horizon, facing));
            }
        }
    }
}

// Faces from east round by the equator to west. The calendar's half-years do not mirror one another to the
// day, and the Earth is slower in July; what falls on faces turned away, at the ends of the longest days,
// differs by more.
TEST(SunHours, SouthMirrorsNorth) {
    const SunOverHorizon north = SunPath(Degrees(50.0)).over(open_ground);
    const SunOverHorizon south = SunPath(Degrees(-50.0)).over(open_ground);
    for (double facing = 90.0; facing <= 270.0; facing += 22.5) {
        const FaceSun a = north.on_face(Degrees(facing));
        const FaceSun b = south.on_face(Degrees(180.0 - facing));
        EXPECT_NEAR(a.summer_half / b.summer_half, 1.0, 0.02) << facing;
        EXPECT_NEAR(a.winter_half / b.winter_half, 1.0, 0.02) << facing;
    }
}

TEST(SunHours, OppositeFacesShareTheDay) {
    const SunOverHorizon sun = SunPath(Degrees(51.5)).over(wood());
    const auto day = [&sun](double facing) {
        return sun.on_face(Degrees(facing)).summer_half + sun.on_face(Degrees(facing + 180.0)).summer_half;
    };
    for (const double facing : {0.0, 10.1, 45.0, 90.0, 179.9, 359.0})
        EXPECT_NEAR(day(facing).value(), day(0.0).value(), 1e-4) << facing;
}

TEST(SunHours, AtTheEdgesOfHorizonsAndBearings) {
    const SunPath path(Degrees(51.5));
    const FaceSun walled = path.over(Horizon(16, Degrees(90.0))).on_face(Degrees(180.0));
    EXPECT_EQ(walled.summer_half, Hours(0.0));
    const SunOverHorizon open = path.over(Horizon(8, Degrees(-5.0)));
    EXPECT_EQ(open.on_face(Degrees(-90.0)).summer_half, open.on_face(Degrees(270.0)).summer_half);
    EXPECT_EQ(open.on_face(Degrees(360.0)).winter_half, open.on_face(Degrees(0.0)).winter_half);
    EXPECT_EQ(open.on_face(Degrees(180.0)).summer_half,
              path.over(open_ground).on_face(Degrees(180.0)).summer_half);
    EXPECT_THROW((void)path.over({}), std::invalid_argument);
}

// By hand: at noon of midsummer the sun stands 90° − 51.5° + 23.4° high in the south. A horizon as high as
// the sun comes hides all of it.
TEST(SunHours, KnowHowHighTheSunComes) {
    const SunPath path(Degrees(51.5));
    EXPECT_EQ(path.highest_in(0, 72), Degrees(0.0));
    EXPECT_NEAR(path.highest_in(36, 72).value(), 90.0 - 51.5 + 23.44, 0.5);
    Horizon hidden, nearly;
    for (std::size_t sector = 0; sector < 72; ++sector) {
        hidden.push_back(path.highest_in(sector, 72));
        nearly.push_back(hidden.back() - Degrees(1.0));
    }
    EXPECT_EQ(path.over(hidden).on_face(Degrees(180.0)).summer_half, Hours(0.0));
    EXPECT_GT(path.over(nearly).on_face(Degrees(180.0)).summer_half, Hours(0.0));
}

TEST(SunHours, AWallInTheEastTakesTheMorning) {
    // Sectors from north clockwise: the wall stands from north by east to south.
    const SunOverHorizon sun = SunPath(Degrees(51.5)).over(Horizon{Degrees(90.0), Degrees(0.0)});
    EXPECT_EQ(sun.on_face(Degrees(90.0)).summer_half, Hours(0.0));
    const FaceSun west = sun.on_face(Degrees(270.0));
    const FaceSun open = SunPath(Degrees(51.5)).over(open_ground).on_face(Degrees(270.0));
    EXPECT_EQ(west.hot_afternoon, open.hot_afternoon);
    EXPECT_NEAR(west.summer_half.value(), open.summer_half.value(), 1e-4);
}

TEST(HotAfternoons, AreThoseOfTheLocalSummer) {
    EXPECT_EQ(hot_afternoons(Degrees(50.0)).month, std::chrono::July);
    EXPECT_EQ(hot_afternoons(Degrees(-38.0)).month, std::chrono::January);
    // From sunset on there is no sun: a later start takes hours away one for one.
    const auto west_from = [](double from) {
        const SunPath path(Degrees(50.0), HotAfternoons{std::chrono::July, Hours(from)});
        return path.over(open_ground).on_face(Degrees(270.0)).hot_afternoon.value();
    };
    EXPECT_NEAR(west_from(14.0) - west_from(16.0), 2.0, 1e-4);
    EXPECT_NEAR(west_from(0.0) - west_from(12.0), 0.0, 1e-4);
}

}  // namespace
}  // namespace roostward::sun
