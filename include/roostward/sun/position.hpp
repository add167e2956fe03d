#pragma once

#include <chrono>

#include "roostward/core/point.hpp"
#include "roostward/core/time.hpp"
#include "roostward/core/units.hpp"

/// The sun after Meeus, Astronomical Algorithms, 2nd ed. 1998, chapter 25, "low accuracy": the shortest
/// series that stays within 0.01° from 1950 to 2050. tests/reference/sun/SOURCE tells how far off it was
/// found to be.
namespace roostward::sun {

using AstronomicalUnits = core::Quantity<struct AstronomicalUnitsUnit>;
using Hectopascals = core::Quantity<struct HectopascalsUnit>;

/// Terrestrial time is ahead of UTC by this much: the value of 2000, within 35 s of the true one from 1950 to
/// 2050. The sun moves 0.0004° in 35 s.
inline constexpr std::chrono::seconds terrestrial_time_ahead{64};

/// Where the sun's centre seems to stand from the Earth's centre, in the equinox of date.
struct ApparentSun {
    core::Degrees longitude;        ///< along the ecliptic, [0, 360)
    core::Degrees right_ascension;  ///< [0, 360)
    core::Degrees declination;
    core::Degrees equinoxes;  ///< nutation in right ascension
    AstronomicalUnits distance;
};
[[nodiscard]] ApparentSun apparent_sun(core::Instant instant);

/// How far the sun has gone past the meridian, in [-180, 180): 0 at solar noon, positive in the afternoon.
/// UTC stands for UT1; they differ by up to 0.9 s, 0.004°.
[[nodiscard]] core::Degrees hour_angle(const ApparentSun& sun, core::Instant instant,
                                       core::Degrees longitude);

/// The air that lifts the sun.
struct Air {
    Hectopascals pressure{1010.0};
    core::Celsius temperature{10.0};
};
inline constexpr Air no_air{Hectopascals(0.0), core::Celsius(10.0)};

/// How far air lifts something at a true elevation (Sæmundsson 1986, in Meeus, formula 16.4). Zero where the
/// whole sun is below the horizon, elevation < -0.8333°.
[[nodiscard]] core::Degrees refraction(core::Degrees elevation, const Air& air);

/// Where the sun's centre stands for somebody at a place.
struct SunPosition {
    core::Degrees azimuth;  ///< true bearing, [0, 360)
    core::Degrees elevation;
};

/// A sun as seen at a latitude, parallax and refraction included. For many hour angles.
class SeenFrom {
 public:
    SeenFrom(core::Degrees latitude, const ApparentSun& sun);

    [[nodiscard]] SunPosition under(core::Degrees hour_angle, const Air& air) const;

 private:
    double sin_latitude_, cos_latitude_, sin_declination_, cos_declination_;
    AstronomicalUnits distance_;
};

/// To 0.01° from 1950 to 2050, where UTC is UT1. The place's height would move it by less than 0.00001°.
[[nodiscard]] SunPosition position(core::Instant instant, const core::GeographicPoint& place,
                                   const Air& air = no_air);

/// What a sundial shows, in [0, 24).
[[nodiscard]] core::Hours solar_time(core::Instant instant, core::Degrees longitude);

}  // namespace roostward::sun
