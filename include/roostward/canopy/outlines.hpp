#pragma once

#include <vector>

#include "roostward/canopy/canopy.hpp"
#include "roostward/geo/shape.hpp"

namespace roostward::canopy {

/// The ground of each gap, gap 1 first, along the edges of its cells: vertices only where an outline turns,
/// outer rings against the clock and holes with it. Where cells of a gap meet only at a corner, its rings
/// touch there and do not cross, so that every polygon is valid. O(cells).
[[nodiscard]] std::vector<geo::Polygon> outlines_of(const GapMap& gaps);

}  // namespace roostward::canopy
