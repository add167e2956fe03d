#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "roostward/core/finding.hpp"
#include "roostward/core/grid.hpp"
#include "roostward/core/units.hpp"
#include "roostward/evenings/to_come.hpp"
#include "roostward/geo/shape.hpp"
#include "roostward/survey/records.hpp"
#include "roostward/trees/neighbours.hpp"

namespace roostward::evenings {

/// Nobody stands nearer to water than this (inclusive): handed down by the trade, no source.
inline constexpr core::Metres off_water{5.0};
/// Roads are told by their middle: half of a carriageway with its verge. Common practice, no source.
inline constexpr core::Metres off_road{4.0};
/// People stand on paths or this near to them (inclusive), outside the allowed area too.
inline constexpr core::Metres beside_path{15.0};

/// Where people may stand, and what stands in their view. Refers to what was read.
struct Ground {
    const std::vector<geo::Polygon>& allowed_area;  ///< empty: everywhere
    const std::vector<geo::Line>& paths;
    const core::Records<survey::Station>& stations;
    const std::vector<geo::Polygon>& keep_out;
    const trees::Features &roads, &water;
    const std::optional<core::Raster>& canopy_height;  ///< metres above ground
    const std::optional<core::Raster>& ground_height;  ///< metres above sea on the same cells
};

struct Places {
    std::vector<Place> places;  ///< from west to east, then from south to north
    core::Findings findings;    ///< stations at which nobody can stand
};

/// Where people may stand and see a tree that could hold a box, `reach` away from its stem or nearer: the
/// stations, else places along the paths, else a grid of the allowed ground; at most `most` of them, evenly
/// thinned. Throws Error{inputs} where there is no such tree or no such place.
[[nodiscard]] Places candidate_places(const Ground& ground, std::span<const core::PlanePoint> stems,
                                      core::Metres reach, std::size_t most = 2000);

}  // namespace roostward::evenings
