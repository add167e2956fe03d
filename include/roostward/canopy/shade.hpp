#pragma once

#include "roostward/core/grid.hpp"
#include "roostward/core/units.hpp"

namespace roostward::canopy {

/// A place and its height above the ground there.
struct Spot {
    core::PlanePoint place;
    core::Metres height;
};

/// Metres of the straight line from one spot to another that lie in crowns, counted level: where the canopy
/// is higher than the line, but not three times as high, for crowns begin at a third of a tree's height
/// (common practice, no source). The last `but` metres are left out. Unknown ground counts as open.
[[nodiscard]] core::Metres crowns_between(const core::Raster& canopy_height, const Spot& from, const Spot& to,
                                          core::Metres but);

}  // namespace roostward::canopy
