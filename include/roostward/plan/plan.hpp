#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "roostward/activity/flight_density.hpp"
#include "roostward/activity/flight_lines.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/plan/next_evening.hpp"
#include "roostward/siting/candidates.hpp"
#include "roostward/siting/certainty.hpp"
#include "roostward/siting/choice.hpp"
#include "roostward/siting/inputs.hpp"
#include "roostward/siting/mounting.hpp"
#include "roostward/siting/reserves.hpp"
#include "roostward/siting/settings.hpp"
#include "roostward/siting/what_if.hpp"
#include "roostward/survey/observers.hpp"
#include "roostward/survey/survey.hpp"
#include "roostward/trees/suitability.hpp"

namespace roostward::plan {

/// The answer, with everything it was made from that an output shows.
struct Plan {
    /// Nothing seen is given yet: trees are judged, those that could hold a box are not watched, and nothing
    /// is ranked.
    bool screening = false;
    std::string number;  ///< its name on paper, see io::plan_number; set by who knows the files
    siting::Settings settings;
    geo::Crs planning_crs;
    core::GeographicPoint middle;      ///< of the watched ground; of a screening, of all ground
    core::PlanePoint middle_in_plane;  ///< the same
    std::vector<siting::InputFile> files;
    std::vector<core::RowCount> counts;  ///< after matching passes to watches
    core::Findings findings;             ///< of reading and of matching
    trees::Inventory trees;
    trees::Surroundings surroundings;
    survey::Survey survey;                    ///< as it was noted, flights not bent; observers by letters
    std::vector<survey::Observer> observers;  ///< who is who: for the team only
    activity::Bandwidth bandwidth;
    activity::Surfaces surfaces;
    std::vector<core::Raster> evening_surfaces;      ///< flight density of each evening alone, on few cells
    std::vector<activity::FlightLine> flight_lines;  ///< most used first; bearings in the plane's grid
    core::Degrees meridian_convergence;              ///< true bearing = grid bearing + this
    double mean_rate = 0.0;                          ///< λ̄, metres per m² and hour
    double reference_density = 0.0;                  ///< λ_ref, the same unit
    std::vector<siting::Candidate> candidates;       ///< one a tree
    std::vector<std::size_t> ranked;                 ///< trees that can be chosen, best first
    std::vector<std::size_t> chosen;                 ///< trees chosen, site 1 first
    std::vector<std::size_t> worth_settling;         ///< trees to settle first, best first
    siting::Choice choice;
    siting::Certainty certainty;
    siting::Reserves reserves;
    siting::WhatIfTable what_if;
    siting::Mounting mounting;
    std::vector<trees::Check> checks;
    std::string out_of_season;  ///< to be said first: the animals are not about on any of the evenings
    std::optional<NextEvening> next_evening;
};

/// The whole job, from what was read to what is chosen; a screening where no passes, tracks or tallies are
/// given, or their sheets are blank. Same inputs, same plan, for any number of threads.
/// Throws Error{inputs} where nothing can be said, as when no pass counts.
[[nodiscard]] Plan make_plan(siting::Settings settings, siting::Inputs inputs, core::Threads threads);

/// What `check` tells of the inputs, without planning.
struct Checked {
    std::string site_name;
    bool screening = false;  ///< nothing that was seen was given: every tree of the inventory counts
    std::vector<siting::InputFile> files;
    std::vector<core::RowCount> counts;  ///< after matching passes to watches
    core::Findings findings;             ///< of reading and of matching
    survey::Survey survey;
    trees::Inventory trees;
    std::vector<trees::Check> checks;
    std::string out_of_season;  ///< as in Plan
};
[[nodiscard]] Checked check_inputs(const siting::Settings& settings, siting::Inputs inputs,
                                   core::Threads threads);

}  // namespace roostward::plan
