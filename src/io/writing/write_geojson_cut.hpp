#pragma once

#include <vector>

#include "roostward/geo/shape.hpp"

// Geometry in longitude and latitude as RFC 7946 wants it.
namespace roostward::io {

/// The parts of a line on either side of ±180° (RFC 7946, section 3.1.9); the line itself where it does not
/// cross.
[[nodiscard]] std::vector<geo::Line> cut_at_antimeridian(const geo::Line& line);

/// The same for polygons.
[[nodiscard]] std::vector<geo::Polygon> cut_at_antimeridian(const std::vector<geo::Polygon>& polygons);

/// Closed rings, the outer one counter-clockwise and holes clockwise (RFC 7946, section 3.1.6).
void wind_rings(geo::Polygon& polygon);

}  // namespace roostward::io
