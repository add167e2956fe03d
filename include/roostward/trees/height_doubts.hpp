#pragma once

#include "roostward/core/parallel.hpp"
#include "roostward/trees/suitability.hpp"

namespace roostward::trees {

/// One finding where the heights of the inventory do not go with the canopy model: over 5 % of the trees
/// compared differ from the highest canopy within their crown's radius by more than 3 m and more than 30 % of
/// the height told. Common practice, no source. Trees on ground that the model does not know are not
/// compared.
[[nodiscard]] core::Findings height_doubts(const Inventory& inventory,
                                           const std::optional<core::Raster>& canopy_height,
                                           const Settings& settings, core::Threads threads);

}  // namespace roostward::trees
