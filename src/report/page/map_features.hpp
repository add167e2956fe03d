#pragma once

#include "roostward/core/document.hpp"
#include "roostward/plan/plan.hpp"

namespace roostward::report {

/// All that the map shows besides flight density and trees, as far as it lies in the box. Places are
/// decimetres east and north of the box's south-west corner, one after the other.
[[nodiscard]] core::Object map_features(const plan::Plan& plan, const core::Box& box);

}  // namespace roostward::report
