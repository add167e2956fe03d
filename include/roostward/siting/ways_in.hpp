#pragma once

#include "roostward/core/parallel.hpp"
#include "roostward/core/point.hpp"
#include "roostward/siting/candidates.hpp"
#include "roostward/siting/mounting.hpp"

namespace roostward::siting {

/// What is the same for all trees of a site.
struct Hanging {
    Mounting mounting;
    core::Degrees latitude;
    core::Degrees meridian_convergence;  ///< true bearing = grid bearing + this
    core::Metres unknown_crown_radius;   ///< where a tree's own is not told
};

/// Tells every tree that is not ruled out which way its first box faces, and what the canopy model says of
/// its trunk at the entrance's height: the free way toward its flight line, the shortest over 30° to each
/// side (all round where the line runs over the stem), and the sun on the first box. The shade of its own
/// crown is left out. Each is empty where there is no model, or where it has a hole or an end. The nearest
/// flight lines must have been told before.
void measure_ways_in(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                     const std::optional<core::Raster>& canopy_height, const Hanging& hanging,
                     core::Threads threads);

}  // namespace roostward::siting
