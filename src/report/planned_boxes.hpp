#pragma once

#include <cstddef>
#include <vector>

#include "roostward/core/units.hpp"
#include "roostward/plan/plan.hpp"

namespace roostward::report {

/// A box to hang, with the number that is painted on it.
struct PlannedBox {
    std::size_t number = 0;  ///< from 1, through all sites
    std::size_t tree = 0;
    core::Degrees facing;
};

/// Every box of every site, site 1 first.
[[nodiscard]] std::vector<PlannedBox> planned_boxes(const plan::Plan& plan);

/// Those of one chosen tree.
[[nodiscard]] std::vector<PlannedBox> planned_boxes(const plan::Plan& plan, std::size_t tree);

}  // namespace roostward::report
