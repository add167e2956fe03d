#pragma once

#include <vector>

#include "roostward/geo/shape.hpp"

namespace roostward::activity {

/// The share of K_h about `centre` that lies on the ground: ∫ K_h over the polygons, in [0, 1] but for
/// rounding. Each edge of a ring gives an angle and two values of Owen's T function (Owen 1956, Annals of
/// Mathematical Statistics 27), so the result is exact to about 1e-13. Polygons must not overlap.
[[nodiscard]] double ground_mass(const std::vector<geo::Polygon>& ground, core::PlanePoint centre,
                                 core::Metres h);

/// An endless sector of ground, by angles from east, counter-clockwise, in radians.
struct Sector {
    core::PlanePoint apex;
    double middle = 0.0;
    double half = 0.0;  ///< in (0, π)
};

/// The share of K_s about `centre` that lies in the sector, from the same two functions: exact to about
/// 1e-13.
[[nodiscard]] double sector_mass(const Sector& sector, core::PlanePoint centre, core::Metres s);

}  // namespace roostward::activity
