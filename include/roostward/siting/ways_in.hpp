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
    core::Metres road_in_view{0.0};      ///< no box faces a road this near the stem
};

/// Tells every watched tree that is not ruled out how far from its stem the nearest road and water lie, and
/// the nearest box that hangs on another tree; and how far from its crown's edge that lies which it must keep
/// away from. Empty where no such layer was given, or there is nothing in it.
void measure_distances(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                       const trees::Surroundings& around, const trees::Settings& settings,
                       core::Threads threads);

/// Tells every watched tree that is not ruled out which way its boxes face, and what the canopy model says of
/// its trunk at the entrance's height: the free way toward the flight line beside it and toward the 16
/// compass points, each the shortest over 30° to each side (all round where the line runs over the stem); the
/// drop that is left toward the line, out to the clear approach beyond the crown; and the sun on the first
/// box. The shade of its own crown is left out. Where the ground's height is told, slopes count as well. Each
/// is empty where there is no model, or where it has a hole or an end; the heat on a face is then that under
/// an open sky. The nearest flight lines must have been told before.
void measure_ways_in(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                     const trees::Surroundings& around, const Hanging& hanging, core::Threads threads);

}  // namespace roostward::siting
