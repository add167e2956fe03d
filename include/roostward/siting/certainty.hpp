#pragma once

#include <cstddef>
#include <vector>

#include "roostward/activity/flight_density.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/siting/candidates.hpp"
#include "roostward/siting/settings.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::siting {

/// How the choice was held against re-drawn evenings.
struct Certainty {
    std::size_t evenings = 0;
    std::size_t redraws = 0;       ///< of the evenings
    std::size_t weight_draws = 0;  ///< of the weights; 0 where only a ranking was asked for
};

/// The data that a choice was made from.
struct Evidenced {
    const trees::Inventory& inventory;
    const survey::Survey& survey;
    const activity::FlightDensity& density;
    const activity::EveningTable& at_trees;  ///< rows of all that may hold a box, at least
};

/// Re-draws the evenings (see give_ranges) and, unless only a ranking was asked for, the weights (see
/// give_acceptability).
[[nodiscard]] Certainty how_sure(std::vector<Candidate>& candidates, const Evidenced& data,
                                 const Settings& settings, core::Threads threads);

}  // namespace roostward::siting
