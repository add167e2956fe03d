#pragma once

#include <optional>

#include "roostward/core/point.hpp"
#include "roostward/siting/inputs.hpp"
#include "roostward/siting/settings.hpp"
#include "roostward/survey/survey.hpp"

/// What was seen, matched into evenings.
namespace roostward::plan {

/// Somewhere in the site; empty where nobody watched and nothing was seen.
[[nodiscard]] std::optional<core::GeographicPoint> place_of(const siting::Inputs& inputs);

[[nodiscard]] survey::Matched match_all(const siting::Settings& settings, const siting::Inputs& inputs);

/// The same. Throws Error{inputs} where no flight counts.
[[nodiscard]] survey::Matched match_inputs(const siting::Settings& settings, const siting::Inputs& inputs);

/// Where people watched and no flight counts: what was watched. Takes what was seen out of the inputs, which
/// are of a screening then. Empty, and nothing taken out, otherwise.
[[nodiscard]] std::optional<survey::Survey> watched_in_vain(const siting::Settings& settings,
                                                            siting::Inputs& inputs);

}  // namespace roostward::plan
