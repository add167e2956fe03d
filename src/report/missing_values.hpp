#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "roostward/plan/plan.hpp"

namespace roostward::report {

/// What the inventory has a column for, or always needs, and does not tell of some trees that stand in
/// watched ground.
struct MissingValue {
    std::string field;               ///< "dbh_cm"
    std::string what;                ///< "trunk diameter"
    std::vector<std::size_t> trees;  ///< indices, ascending; never empty
    std::size_t trees_judged = 0;    ///< in watched ground
};

/// Trunk diameter, height and condition first. Watched ground: within two ranges of a watch, which is as far
/// as a pass could be seen; everywhere where nobody told of watches, or of what was seen.
[[nodiscard]] std::vector<MissingValue> missing_values(const plan::Checked& checked);

/// Of trunk diameter, height and condition those that the inventory has no column for.
[[nodiscard]] std::vector<std::string> missing_columns(const trees::Inventory& inventory);

}  // namespace roostward::report
