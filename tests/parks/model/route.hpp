#pragma once

#include "roostward/core/point.hpp"
#include "roostward/core/random.hpp"
#include "roostward/geo/shape.hpp"

namespace roostward::parks {

/// The ground of every park: 700 m east and 500 m north of the origin.
inline constexpr double park_width = 700.0;
inline constexpr double park_height = 500.0;

/// Uniform over the park.
[[nodiscard]] core::PlanePoint anywhere(core::RandomStream& random);

/// A line that animals fly along, evening after evening.
struct Route {
    geo::Line middle;               ///< about every 5 m
    double flights_per_hour = 0.0;  ///< over all evenings on which it is used
};

/// Standard deviation of the logarithm of how busy a route is, from one evening to the next.
inline constexpr double usual_evening_sd = 0.5;

/// How busy a route is on one evening: 0 on one evening in eight, else log-normal with mean 1.
[[nodiscard]] double evening_factor(double evening_sd, core::RandomStream& random);

/// A smooth curve between two places in the park that lie 250–600 m apart; 6–40 flights an hour, uniform.
[[nodiscard]] Route draw_route(core::RandomStream& random);

/// One flight along the route, in either direction. Three in ten fly only along a part, 30–70 % of its
/// length. The offset to the side has a standard deviation of 4.5 m and wanders slowly: correlation
/// exp(-distance / 60 m).
[[nodiscard]] geo::Line draw_flight(const Route& route, core::RandomStream& random);

/// A short wandering flight: from anywhere in the park, 40–120 m, its heading turning by 20° (sd) every 5 m.
[[nodiscard]] geo::Line draw_foraging_flight(core::RandomStream& random);

}  // namespace roostward::parks
