#pragma once

#include "places/planning_plane.hpp"

namespace roostward::io {

/// The step in the file's unit that coordinates along one axis were rounded to: the largest by whole numbers
/// of which 49 in 50 lie apart from the median, on 8 different places. 0 where none shows, or below 20
/// values.
[[nodiscard]] double step_of(const std::vector<double>& values, bool degrees);

/// For passes and tracks, before they are placed: how many metres the steps of their coordinates are in the
/// plane. Steps of 1 m and more are told. Sets `step` of the layers.
void find_steps(UnplacedInputs& inputs, PlanningPlane& plane);

}  // namespace roostward::io
