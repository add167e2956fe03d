#pragma once

#include <vector>

#include "parks/model/park.hpp"
#include "roostward/activity/flight_density.hpp"
#include "roostward/siting/candidates.hpp"

namespace roostward::parks {

/// What was written down in a park, matched into evenings. Reads nothing of the truth.
[[nodiscard]] survey::Survey noted_in(const Park& park);
/// The same with the flights bent.
[[nodiscard]] survey::Survey survey_of(const Park& park);

/// What is asked of every park: `sites` trees, `site_spacing` apart.
[[nodiscard]] siting::ChoiceSettings park_choice();

/// Whether ranges are wanted: they take most of the time.
enum class Ranges { no, yes };

/// What roostward makes of a park: matched, estimated at each tree, scored, ranked and chosen. Trees that are
/// not suitable are ruled out. Reads nothing of the truth.
[[nodiscard]] std::vector<siting::Candidate> assess(const Park& park, activity::Bandwidth bandwidth,
                                                    const siting::ChoiceSettings& choice,
                                                    Ranges ranges = Ranges::no);
/// The same of a survey that was written down otherwise.
[[nodiscard]] std::vector<siting::Candidate> assess(const Park& park, const survey::Survey& survey,
                                                    activity::Bandwidth bandwidth,
                                                    const siting::ChoiceSettings& choice,
                                                    Ranges ranges = Ranges::no);

}  // namespace roostward::parks
