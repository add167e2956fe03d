#pragma once

#include <optional>
#include <vector>

#include "roostward/core/grid.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/io/site_file.hpp"
#include "roostward/siting/inputs.hpp"

namespace roostward::io {

struct CanopyReading {
    core::Raster height;                 ///< metres above ground
    std::optional<core::Raster> ground;  ///< metres above sea on the same cells, where it is told
    std::vector<siting::InputFile> files;
    core::Findings findings;
};

/// The canopy raster around the site, in the planning plane. A raster already in the plane, north up and with
/// square cells keeps its cells; any other is resampled to the nearest. No-data of every kind, not-a-number
/// and heights outside -2 to 150 m are unknown; heights from -2 to 0 m are 0. `site` holds trees and watches;
/// it is widened a little. Throws Error{inputs} for a raster without a system, elsewhere than the site, or
/// with over 2·10⁸ cells on it.
[[nodiscard]] CanopyReading read_canopy(const InputSource& source, const geo::Crs& plane,
                                        const core::Box& site, core::Threads threads);

/// The same from heights above sea: on the surface's cells, as a canopy raster's, less the terrain, which
/// lies between its own cells in proportion. Unknown where either is.
[[nodiscard]] CanopyReading read_surface_less_terrain(const InputSource& surface, const InputSource& terrain,
                                                      const geo::Crs& plane, const core::Box& site,
                                                      core::Threads threads);

}  // namespace roostward::io
