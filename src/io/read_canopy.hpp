#pragma once

#include <optional>

#include "roostward/core/grid.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/io/layer_report.hpp"
#include "roostward/io/site_file.hpp"
#include "roostward/siting/inputs.hpp"

namespace roostward::io {

struct CanopyReading {
    core::Raster height;  ///< metres above ground
    siting::InputFile file;
    core::Findings findings;
};

/// The canopy raster around the site, in the planning plane. A raster already in the plane, north up and with
/// square cells keeps its cells; any other is resampled to the nearest. No-data of every kind, not-a-number
/// and heights outside -100 to 150 m are unknown. `site` holds trees and watches; it is widened a little.
/// Throws Error{inputs} for a raster without a system, elsewhere than the site, or with over 2·10⁸ cells on
/// it.
[[nodiscard]] CanopyReading read_canopy(const InputSource& source, const geo::Crs& plane,
                                        const core::Box& site, core::Threads threads);

}  // namespace roostward::io
