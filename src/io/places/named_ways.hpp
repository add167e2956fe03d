#pragma once

#include "places/planning_plane.hpp"

namespace roostward::io {

/// Passes that flew "towards the creek" or "from the barn" get the bearing to or from the nearest point of
/// that route. Those on it, and those whose route nobody drew, stay without, with a doubt. To be called when
/// all lies in the planning plane.
void take_named_ways(UnplacedInputs& inputs);

}  // namespace roostward::io
