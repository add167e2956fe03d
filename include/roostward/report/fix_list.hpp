#pragma once

#include "roostward/geo/layer.hpp"
#include "roostward/plan/plan.hpp"

namespace roostward::report {

/// What whoever keeps the tree inventory should mend, a row each: rows set aside, doubtful values, and what
/// is not told of trees in watched ground. Columns: file, row, tree, field, value, what_is_wrong, what_to_do.
[[nodiscard]] geo::Table fix_list(const plan::Checked& checked);

}  // namespace roostward::report
