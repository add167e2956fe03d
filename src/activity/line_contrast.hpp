#pragma once

#include <vector>

#include "line_path.hpp"
#include "roostward/core/grid.hpp"

namespace roostward::activity {

/// Flights seen within `close` of a path, abreast of it, against those seen beside it as far as four times
/// that, as the ground there was watched: in standard errors, see contrast(). On either ground, flights more
/// across than along the path say nothing of it; flying along alone makes no line of a broad front.
[[nodiscard]] double contrast_along(const geo::Line& path, const std::vector<Place>& places,
                                    const core::Raster& hours, core::Metres close);

}  // namespace roostward::activity
