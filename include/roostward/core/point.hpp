#pragma once

#include <cmath>
#include <compare>

#include "roostward/core/units.hpp"

namespace roostward::core {

/// A place on the globe, WGS 84.
struct GeographicPoint {
    Degrees longitude;
    Degrees latitude;
    friend bool operator==(const GeographicPoint&, const GeographicPoint&) = default;
};

/// A place in the planning plane, metres. All analysis works in one planning plane.
struct PlanePoint {
    double easting = 0.0;
    double northing = 0.0;
    friend bool operator==(const PlanePoint&, const PlanePoint&) = default;
    /// From west to east, then from south to north.
    friend auto operator<=>(const PlanePoint&, const PlanePoint&) = default;
};

[[nodiscard]] inline double squared_distance(PlanePoint a, PlanePoint b) {
    const double dx = a.easting - b.easting;
    const double dy = a.northing - b.northing;
    return dx * dx + dy * dy;
}

[[nodiscard]] inline Metres distance(PlanePoint a, PlanePoint b) {
    return Metres(std::sqrt(squared_distance(a, b)));
}

/// Bearing in the plane's own grid, clockwise from grid north, in [0, 360).
[[nodiscard]] Degrees grid_bearing(PlanePoint from, PlanePoint to);

/// The point `away` metres from `from` along a grid bearing.
[[nodiscard]] PlanePoint moved(PlanePoint from, Degrees grid_bearing, Metres away);

/// The same direction in [0, 360).
[[nodiscard]] Degrees normalised(Degrees bearing);

/// Smallest turn between two bearings, in [0, 180].
[[nodiscard]] Degrees turn_between(Degrees a, Degrees b);

}  // namespace roostward::core
