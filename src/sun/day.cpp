#include "roostward/sun/day.hpp"

#include <chrono>

#include "roostward/sun/position.hpp"

namespace roostward::sun {

using core::Degrees;
using core::GeographicPoint;
using core::Instant;
using std::chrono::hours;
using std::chrono::milliseconds;

namespace {

/// The time the sun needs for an angle about the Earth.
milliseconds time_of_turn(Degrees angle) {
    return std::chrono::round<milliseconds>(std::chrono::duration<double, std::ratio<240>>(angle.value()));
}

/// The solar noon nearest to an instant.
Instant noon_near(Instant instant, Degrees longitude) {
    // The sun's hour angle gains at most 30 s a day on its mean: the second step is exact to a few
    // milliseconds.
    for (int step = 0; step < 3; ++step)
        instant -= time_of_turn(hour_angle(apparent_sun(instant), instant, longitude));
    return instant;
}

bool is_up(Instant instant, const GeographicPoint& place, Degrees level) {
    return position(instant, place).elevation >= level;
}

/// The instant, to the millisecond, at which the sun changes between `up` and down; none where it does not.
std::optional<Instant> change(Instant up, Instant down, const GeographicPoint& place, Degrees level) {
    if (!is_up(up, place, level) || is_up(down, place, level)) return std::nullopt;
    while (up - down > milliseconds(1) || down - up > milliseconds(1)) {
        const Instant middle = up + (down - up) / 2;
        (is_up(middle, place, level) ? up : down) = middle;
    }
    return up;
}

Night kind_of(const Nightfall& evening, bool sun_at_midnight, bool dusk_at_noon) {
    if (evening.sunset) return evening.civil_dusk ? Night::usual : Night::white;
    if (sun_at_midnight) return Night::midnight_sun;
    return dusk_at_noon ? Night::polar_night : Night::no_sun;
}

Nightfall nightfall_after(Instant noon, const GeographicPoint& place) {
    const Instant midnight = noon + hours(12);
    Nightfall evening;
    evening.noon = noon;
    evening.sunset = change(noon, midnight, place, sunset_elevation);
    evening.civil_dusk = change(noon, midnight, place, civil_dusk_elevation);
    evening.night =
        kind_of(evening, is_up(midnight, place, sunset_elevation), !is_up(noon, place, civil_dusk_elevation));
    return evening;
}

}  // namespace

Nightfall nightfall(Instant within, const GeographicPoint& place) {
    Instant noon = noon_near(within, place.longitude);
    if (noon > within) noon = noon_near(noon - hours(24), place.longitude);
    return nightfall_after(noon, place);
}

Nightfall nightfall(core::Evening evening, const GeographicPoint& place) {
    const Instant mean_noon = std::chrono::sys_days(evening.date) + hours(12) - time_of_turn(place.longitude);
    return nightfall_after(noon_near(mean_noon, place.longitude), place);
}

std::optional<Instant> sunrise_before(Instant noon, const GeographicPoint& place) {
    return change(noon, noon - hours(12), place, sunset_elevation);
}

Light light_at(Instant instant, const GeographicPoint& place) {
    if (is_up(instant, place, sunset_elevation)) return Light::day;
    return is_up(instant, place, civil_dusk_elevation) ? Light::twilight : Light::dark;
}

}  // namespace roostward::sun
