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
/// (common practice, no source). The last `but` metres are left out. Unknown canopy counts as open. Where
/// `ground_height` is told, on the same cells, the line goes from the ground of the one spot to that of the
/// other, and ground that rises above it hides everything: infinite. Unknown ground is as high as the lower
/// end's.
[[nodiscard]] core::Metres crowns_between(const core::Raster& canopy_height, const Spot& from, const Spot& to,
                                          core::Metres but, const core::Raster* ground_height = nullptr);

}  // namespace roostward::canopy
