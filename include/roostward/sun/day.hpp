#pragma once

#include <optional>

#include "roostward/core/point.hpp"
#include "roostward/core/time.hpp"
#include "roostward/core/units.hpp"

/// Sunrise, sunset and dusk over a flat, open horizon, at sea level. Far north and south they may not come.
namespace roostward::sun {

/// The sun's centre at sunrise and sunset, without refraction: 34′ of refraction and 16′ of radius (the
/// convention of the almanacs; Meeus, Astronomical Algorithms, chapter 15).
inline constexpr core::Degrees sunset_elevation{-50.0 / 60.0};
/// The sun's centre at civil dusk, without refraction (Hong Kong Observatory, "Twilight").
inline constexpr core::Degrees civil_dusk_elevation{-6.0};

/// The kinds of evening.
enum class Night {
    usual,         ///< the sun sets and civil dusk comes
    white,         ///< the sun sets, civil dusk does not come
    midnight_sun,  ///< the sun does not set
    no_sun,        ///< the sun is below the horizon all day, civil dusk comes
    polar_night    ///< the sun stays below civil dusk all day
};

/// From solar noon to solar midnight.
struct Nightfall {
    Night night = Night::usual;
    core::Instant noon;                       ///< the sun crosses the meridian
    std::optional<core::Instant> sunset;      ///< for the kinds `usual` and `white`
    std::optional<core::Instant> civil_dusk;  ///< for the kinds `usual` and `no_sun`
};

/// Of the evening in which the instant falls: from the last solar noon (inclusive) to the next.
[[nodiscard]] Nightfall nightfall(core::Instant within, const core::GeographicPoint& place);

/// Of an evening named by its date, where clocks follow the longitude. Beside the date line, where some count
/// the other date, ask with an instant.
[[nodiscard]] Nightfall nightfall(core::Evening evening, const core::GeographicPoint& place);

/// The sunrise before a solar noon; none where the sun does not come up between solar midnight and then.
[[nodiscard]] std::optional<core::Instant> sunrise_before(core::Instant noon,
                                                          const core::GeographicPoint& place);

enum class Light { day, twilight, dark };

/// Day down to sunset, twilight down to civil dusk (both inclusive), dark below.
[[nodiscard]] Light light_at(core::Instant instant, const core::GeographicPoint& place);

}  // namespace roostward::sun
