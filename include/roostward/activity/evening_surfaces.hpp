#pragma once

#include <cstddef>
#include <vector>

#include "roostward/activity/bandwidth.hpp"
#include "roostward/activity/settings.hpp"
#include "roostward/core/grid.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::activity {

/// The smallest box that holds all cells that are known; the grid's where none is.
[[nodiscard]] core::Box known_box(const core::Raster& raster);

/// Flight density of each evening by itself, metres flown per hectare and hour, known where that evening was
/// watched for enough_on_an_evening (inclusive). All on one grid over `ground`, of at most `most_cells`,
/// which are no smaller than the settings' cells. Flights are spread by h, or by a cell where that is more,
/// so that none falls between two cells. The same bits for any number of threads. O(evenings · cells ·
/// flights near).
[[nodiscard]] std::vector<core::Raster> evening_surfaces(const survey::Survey& survey,
                                                         const Bandwidth& bandwidth, const Settings& settings,
                                                         const core::Box& ground, std::size_t most_cells,
                                                         core::Threads threads);

}  // namespace roostward::activity
