#pragma once

#include <string>
#include <vector>

#include "roostward/core/units.hpp"
#include "roostward/report/finished_plan.hpp"

namespace roostward::report {

struct Neighbour {
    FinishedTree tree;
    core::Metres away;
    std::string toward;  ///< compass point, as seen from the tree
};

/// What stands round about a tree of a finished plan.
struct RoundAbout {
    std::vector<Neighbour> scored;  ///< nearest first; of equally near ones in the order of the plan
    std::size_t others = 0;         ///< without a score: ruled out or not watched
};
/// Up to `most` with a score within a distance (inclusive); and the nearest site, where none of them is one.
[[nodiscard]] RoundAbout round_about(const FinishedTree& tree, const std::vector<FinishedTree>& trees,
                                     core::Metres within, std::size_t most);

}  // namespace roostward::report
