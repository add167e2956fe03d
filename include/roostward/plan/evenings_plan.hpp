#pragma once

#include <vector>

#include "roostward/core/parallel.hpp"
#include "roostward/evenings/to_come.hpp"
#include "roostward/siting/inputs.hpp"
#include "roostward/siting/settings.hpp"
#include "roostward/trees/suitability.hpp"

namespace roostward::plan {

/// Evenings to come, with everything that an output shows of the ground.
struct EveningsPlan {
    siting::Settings settings;
    evenings::ToCome to_come;
    geo::Crs planning_crs;
    core::GeographicPoint middle;        ///< of the ground
    core::PlanePoint middle_in_plane;    ///< the same
    core::Degrees meridian_convergence;  ///< true bearing = grid bearing + this
    std::vector<siting::InputFile> files;
    std::vector<core::RowCount> counts;  ///< after matching passes to watches
    core::Findings findings;             ///< of reading and of matching
    trees::Inventory trees;
    trees::Surroundings surroundings;
    std::vector<trees::Verdict> verdicts;  ///< one a tree
    std::vector<geo::Line> paths;
    std::vector<geo::Polygon> keep_out;
    std::vector<trees::Check> checks;
};

}  // namespace roostward::plan
