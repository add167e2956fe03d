#pragma once

#include "roostward/core/finding.hpp"
#include "roostward/geo/layer.hpp"
#include "roostward/plan/plan.hpp"

namespace roostward::report {

/// A line a box: what is planned, and blanks for what was done. Reads back as existing boxes.
[[nodiscard]] geo::Table boxes_to_hang(const plan::Plan& plan);

/// Which name stands behind which letter of an observer: for the team only.
[[nodiscard]] geo::Table observers(const plan::Plan& plan);

/// A line a finding.
[[nodiscard]] geo::Table findings_table(const core::Findings& findings);

}  // namespace roostward::report
