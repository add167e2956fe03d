#pragma once

#include <optional>

#include "roostward/core/finding.hpp"
#include "roostward/core/point.hpp"
#include "roostward/siting/profile.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::plan {

/// Evenings on which the animals are not about, by the season of their profile.
struct OutOfSeason {
    core::Finding told;
    bool all = false;  ///< no evening lies in the season
};

/// Empty where all evenings lie in the season. Between the tropics no season is known.
[[nodiscard]] std::optional<OutOfSeason> out_of_season(const survey::Survey& survey,
                                                       const siting::Profile& profile,
                                                       core::GeographicPoint site);

}  // namespace roostward::plan
