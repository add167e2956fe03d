#pragma once

#include <optional>
#include <vector>

#include "roostward/core/grid.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/siting/candidates.hpp"
#include "roostward/siting/settings.hpp"

namespace roostward::siting {

/// Tells of every tree what the canopy model says of its stem; where only a ranking was asked for, of those
/// that may hold a box. Nothing without a model. O(trees + cells).
void measure_canopy(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                    const std::optional<core::Raster>& canopy_height, const Settings& settings,
                    core::Threads threads);

}  // namespace roostward::siting
