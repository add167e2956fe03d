#pragma once

#include "places/planning_plane.hpp"

namespace roostward::io {

/// What can only be judged over whole layers, in the plane and in order: the same row twice, heaped bearings,
/// areas that cross themselves (which are repaired), trees apart from what was watched.
void check_inputs(UnplacedInputs& inputs);

}  // namespace roostward::io
