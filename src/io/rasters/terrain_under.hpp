#pragma once

#include "rasters/raster_reading.hpp"
#include "roostward/core/grid.hpp"

namespace roostward::io {

/// Heights of the terrain at the middles of a grid's cells, between its own cells in proportion (bilinear).
/// Not known where the terrain's cell there is not; unknown cells beside it take no part. `grid` lies in
/// `plane`.
[[nodiscard]] core::Raster terrain_under(const core::Grid& grid, const OpenRaster& terrain,
                                         const geo::Crs& plane, core::Threads threads);

}  // namespace roostward::io
