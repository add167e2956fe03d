#pragma once

#include <vector>

#include "roostward/core/parallel.hpp"
#include "roostward/evenings/calendar.hpp"
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

/// What is asked of evenings to come.
struct EveningsAsked {
    evenings::Settings settings;
    evenings::Ask ask;
    evenings::LocalClock clock;
};

/// Where teams should stand on evenings to come, heeding what was seen so far. Throws Error{usage} and
/// Error{inputs} as dates_of and choose_posts do.
[[nodiscard]] EveningsPlan plan_evenings(siting::Settings settings, siting::Inputs inputs,
                                         const EveningsAsked& asked, core::Threads threads);

}  // namespace roostward::plan
