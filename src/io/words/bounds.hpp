#pragma once

#include "roostward/io/row_reader.hpp"

// What the numbers of a row can be. Beyond `possible` they cannot be right: the row is set aside, or, where
// the rest of it says enough, the value counts as unknown. From `doubtful` on they are used, and told. All of
// them are common practice without a source.
namespace roostward::io {

struct Bound {
    Limits possible;
    double doubtful;
};

namespace bounds {

/// In one pass or flight followed.
inline constexpr Bound animals_together{{0.0, 1000.0}, 40.0};
/// In one tally: a passage a second for nearly three hours.
inline constexpr Bound flights_in_a_tally{{0.0, 10'000.0}, 1000.0};
inline constexpr Limits animals_in_a_roost{0.0, 1e6};
inline constexpr double watch_hours = 12.0;
/// How far a pass can be seen, m; the half-normal's scale is half of it.
inline constexpr Bound farthest_seen_m{{2.0, 2000.0, true}, 400.0};
inline constexpr Bound range_m{{1.0, 1000.0, true}, 200.0};
/// Of an animal above ground, m.
inline constexpr Limits flight_height_m{0.0, 1000.0};
inline constexpr Limits accuracy_m{0.0, 1e5};
inline constexpr Limits distance_m{0.0, 2000.0};
/// Of a flight followed, m/s and m. Slower than `walking` for `walking_hours` is a person.
inline constexpr double fastest_flight = 50.0, walking = 2.5, walking_hours = 10.0 / 60.0;
inline constexpr Bound flight_length_m{{0.0, 20'000.0}, 3000.0};
/// Of somebody who walks and watches, m/s.
inline constexpr Bound watcher_speed{{0.0, 10.0}, 2.5};
inline constexpr Limits temperature_c{-60.0, 60.0}, wind_ms{0.0, 60.0};
inline constexpr Limits lumens{0.0, 1e6, true}, lux{0.0, 1e4, true}, lamp_height_m{0.0, 100.0, true};
inline constexpr Limits box_height_m{0.0, 60.0, true};

}  // namespace bounds

}  // namespace roostward::io
