#pragma once

#include <algorithm>
#include <cmath>

#include "roostward/core/point.hpp"

/// What both the plain and the indexed polygon tests are made of.
namespace roostward::geo {

/// The point of the stretch from `a` to `b` that is nearest to `p`.
[[nodiscard]] inline core::PlanePoint closest_on(core::PlanePoint a, core::PlanePoint b, core::PlanePoint p) {
    const double dx = b.easting - a.easting;
    const double dy = b.northing - a.northing;
    const double squared_length = dx * dx + dy * dy;
    if (squared_length == 0.0) return a;
    const double along = ((p.easting - a.easting) * dx + (p.northing - a.northing) * dy) / squared_length;
    if (along <= 0.0) return a;
    if (along >= 1.0) return b;
    return {a.easting + along * dx, a.northing + along * dy};
}

/// Whether a ray from `p` due east crosses the stretch; its lower end counts, its upper end does not.
[[nodiscard]] inline bool crossed_by_ray(core::PlanePoint a, core::PlanePoint b, core::PlanePoint p) {
    if ((a.northing > p.northing) == (b.northing > p.northing)) return false;
    const double up = (p.northing - a.northing) / (b.northing - a.northing);
    return p.easting < a.easting + up * (b.easting - a.easting);
}

}  // namespace roostward::geo
