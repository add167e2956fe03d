#pragma once

#include <vector>

#include "roostward/report/compare_text.hpp"

namespace roostward::report {

/// What two plans were made from, where it differs.
[[nodiscard]] std::vector<Changes> causes_of(const FinishedPlan& before, const FinishedPlan& after);

/// Only groups that say something.
[[nodiscard]] std::vector<Changes> not_empty(std::vector<Changes> groups);

}  // namespace roostward::report
