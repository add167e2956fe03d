#pragma once

#include "places/planning_plane.hpp"

namespace roostward::io {

/// Rows whose place is told by a station, a square or a tree get their position, and join the others of their
/// layer in the order of their content. What cannot be found is set aside, with the nearest known name. To be
/// called when everything else lies in the planning plane.
void locate_elsewhere(UnplacedInputs& inputs, const GridNorth& north);

}  // namespace roostward::io
