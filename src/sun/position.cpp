#include "roostward/sun/position.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace roostward::sun {

using core::Degrees;
using core::Instant;

namespace {

constexpr double radians_in_a_degree = std::numbers::pi / 180.0;

double sin_of(Degrees angle) {
    return std::sin(angle.value() * radians_in_a_degree);
}

double cos_of(Degrees angle) {
    return std::cos(angle.value() * radians_in_a_degree);
}

double tan_of(Degrees angle) {
    return std::tan(angle.value() * radians_in_a_degree);
}

Degrees angle_of(double y, double x) {
    return Degrees(std::atan2(y, x) / radians_in_a_degree);
}

Degrees arc_sine(double sine) {
    return Degrees(std::asin(std::clamp(sine, -1.0, 1.0)) / radians_in_a_degree);
}

double days_since_2000(Instant instant) {
    using Days = std::chrono::duration<double, std::ratio<86400>>;
    constexpr Instant noon = std::chrono::sys_days(std::chrono::year(2000) / 1 / 1) + std::chrono::hours(12);
    return Days(instant - noon).count();
}

/// The sun's mean motion and its ellipse, with T in Julian centuries from 2000 (Meeus, formulas 25.2
/// to 25.5).
struct Orbit {
    Degrees longitude;  ///< true, geometric
    AstronomicalUnits distance;
};

Orbit orbit(double T) {
    const Degrees mean_longitude(280.46646 + T * (36000.76983 + T * 0.0003032));
    const Degrees anomaly(357.52911 + T * (35999.05029 - T * 0.0001537));
    const double eccentricity = 0.016708634 - T * (0.000042037 + T * 0.0000001267);
    const Degrees centre((1.914602 - T * (0.004817 + T * 0.000014)) * sin_of(anomaly) +
                         (0.019993 - T * 0.000101) * sin_of(anomaly * 2.0) +
                         0.000289 * sin_of(anomaly * 3.0));
    return {mean_longitude + centre, AstronomicalUnits(1.000001018 * (1.0 - eccentricity * eccentricity) /
                                                       (1.0 + eccentricity * cos_of(anomaly + centre)))};
}

/// Greenwich mean sidereal time (Meeus, formula 12.4).
Degrees mean_sidereal_time(Instant instant) {
    const double days = days_since_2000(instant);
    const double T = days / 36525.0;
    return core::normalised(Degrees(280.46061837 + 360.98564736629 * days + T * T * 0.000387933));
}

}  // namespace

ApparentSun apparent_sun(Instant instant) {
    const double T = days_since_2000(instant + terrestrial_time_ahead) / 36525.0;
    const Orbit sun = orbit(T);
    const Degrees node(125.04 - 1934.136 * T);
    const Degrees nutation(-0.00478 * sin_of(node));
    const Degrees aberration(-0.00569);
    const Degrees longitude = core::normalised(sun.longitude + aberration + nutation);
    // Meeus, formula 22.2 and the last formula of his page 165.
    const Degrees obliquity(23.4392911 - T * (0.0130042 + T * (1.64e-7 - T * 5.04e-7)) +
                            0.00256 * cos_of(node));
    return {longitude, core::normalised(angle_of(cos_of(obliquity) * sin_of(longitude), cos_of(longitude))),
            arc_sine(sin_of(obliquity) * sin_of(longitude)), nutation * cos_of(obliquity), sun.distance};
}

Degrees hour_angle(const ApparentSun& sun, Instant instant, Degrees longitude) {
    const Degrees half_turn(180.0);
    const Degrees sidereal_time = mean_sidereal_time(instant) + sun.equinoxes;
    return core::normalised(sidereal_time + longitude - sun.right_ascension + half_turn) - half_turn;
}

Degrees refraction(Degrees elevation, const Air& air) {
    constexpr Degrees upper_limb_sets(-0.8333);
    if (elevation < upper_limb_sets) return Degrees(0.0);
    const Degrees argument(elevation.value() + 10.3 / (elevation.value() + 5.11));
    const double minutes = 1.02 / tan_of(argument) * (air.pressure / Hectopascals(1010.0)) * 283.0 /
                           (273.0 + air.temperature.value());
    return Degrees(minutes / 60.0);
}

SeenFrom::SeenFrom(Degrees latitude, const ApparentSun& sun)
    : sin_latitude_(sin_of(latitude)),
      cos_latitude_(cos_of(latitude)),
      sin_declination_(sin_of(sun.declination)),
      cos_declination_(cos_of(sun.declination)),
      distance_(sun.distance) {}

SunPosition SeenFrom::under(Degrees hour_angle, const Air& air) const {
    // Meeus, formulas 13.5 and 13.6; he counts azimuths from the south.
    const double cos_hour = cos_of(hour_angle);
    const double east_west = cos_declination_ * sin_of(hour_angle);
    const double to_south = cos_hour * sin_latitude_ * cos_declination_ - sin_declination_ * cos_latitude_;
    const double upward = sin_latitude_ * sin_declination_ + cos_latitude_ * cos_declination_ * cos_hour;
    const Degrees from_centre = arc_sine(upward);
    const Degrees parallax(8.794 / 3600.0 / distance_.value() * cos_of(from_centre));
    const Degrees elevation = from_centre - parallax;
    return {core::normalised(angle_of(east_west, to_south) + Degrees(180.0)),
            elevation + refraction(elevation, air)};
}

SunPosition position(Instant instant, const core::GeographicPoint& place, const Air& air) {
    const ApparentSun sun = apparent_sun(instant);
    return SeenFrom(place.latitude, sun).under(hour_angle(sun, instant, place.longitude), air);
}

core::Hours solar_time(Instant instant, Degrees longitude) {
    return core::Hours((hour_angle(apparent_sun(instant), instant, longitude).value() + 180.0) / 15.0);
}

}  // namespace roostward::sun
