#pragma once

#include "roostward/core/grid.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/io/layer_report.hpp"

namespace roostward::io {

enum class HeightsFrom { canopy, surface_less_terrain };

/// Tells where a raster that should hold heights above ground looks like something else.
void tell_canopy_doubts(const core::Raster& raster, HeightsFrom from, LayerReport& report);

/// Takes heights from -2 m (inclusive) to 0 as 0, and those below -2 m or above 150 m as unknown; tells how
/// many there were of each, but for those less than 1 cm below the ground. Cells that are not known become 0
/// m.
void keep_likely_heights(core::Raster& raster, HeightsFrom from, core::Threads threads, LayerReport& report);

}  // namespace roostward::io
