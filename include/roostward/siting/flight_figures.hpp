#pragma once

#include <vector>

#include "roostward/activity/flight_density.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/siting/candidates.hpp"
#include "roostward/siting/settings.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::siting {

/// Gives watched trees their flights an hour (see activity/flights_past.hpp) and the ranges of these and of
/// the flight density (see activity/rates.hpp), which hold the figures. The range of the flight density is
/// that of metres flown within 10 m of the stem. The rates that are usual are learnt from the trees that may
/// hold a box; with `ranking_only` others get nothing.
void give_flight_figures(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                         const survey::Survey& flown, const Settings& settings, core::Threads threads);

}  // namespace roostward::siting
