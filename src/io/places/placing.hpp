#pragma once

#include "places/planning_plane.hpp"

namespace roostward::io {

/// Brings every layer into the planning plane, and sets aside rows whose place cannot be right: swapped
/// coordinates and points over 50 km from the middle of their layer. A layer that lies elsewhere than the
/// others is a doubt.
void place_all(UnplacedInputs& inputs, PlanningPlane& plane, core::Threads threads);

/// The box of watches, passes and tracks, else of the trees, else of the squares.
[[nodiscard]] std::optional<core::Box> watched_box(const UnplacedInputs& inputs);

/// True bearings become those of the plane's grid.
void turn_bearings(UnplacedInputs& inputs, const GridNorth& north);

/// Tells where the plane's scale is off by over 0.1 %.
void tell_scale(const PlanningPlane& plane, const GridNorth& north, core::Findings& findings);

}  // namespace roostward::io
