#pragma once

#include "roostward/core/grid.hpp"
#include "roostward/io/layer_report.hpp"

namespace roostward::io {

/// Tells where a raster that was given as height above ground looks like something else.
void tell_canopy_doubts(const core::Raster& raster, LayerReport& report);

}  // namespace roostward::io
