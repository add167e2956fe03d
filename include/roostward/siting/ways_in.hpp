#pragma once

#include "roostward/core/parallel.hpp"
#include "roostward/core/point.hpp"
#include "roostward/siting/candidates.hpp"

namespace roostward::siting {

/// Where and how boxes would hang.
struct Hanging {
    core::Metres entrance;               ///< above the ground at the trunk
    core::Degrees facing;                ///< of the first box, true
    core::Degrees latitude;              ///< of the site
    core::Degrees meridian_convergence;  ///< true bearing = grid bearing + this
    core::Metres unknown_crown_radius;   ///< where a tree's own is not told
};

/// Gives every watched tree that is not ruled out what the canopy model says of its trunk at the entrance's
/// height: the free way toward its flight line, the shortest over 30° to each side (all round where the line
/// runs over the stem), and the sun on the first box. The shade of its own crown is left out. Each is empty
/// where the model does not reach or has a hole. The nearest flight lines must have been told before.
void measure_ways_in(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                     const core::Raster& canopy_height, const Hanging& hanging, core::Threads threads);

}  // namespace roostward::siting
