#pragma once

#include <optional>
#include <string>

#include "roostward/plan/plan.hpp"

/// The answer in a sentence or less.
namespace roostward::report {

/// "Three evenings within ten days of June, 7.5 watch-hours, 38 % of the park not watched."
[[nodiscard]] std::string caveat(const plan::Plan& plan);

/// Share of the allowed area, 0–1, where nobody watched long enough, from 10,000 places in it; empty where no
/// area is told.
[[nodiscard]] std::optional<double> share_not_watched(const plan::Plan& plan);

/// How firmly the choice holds a chosen tree: "Firm. Stays chosen in 27 of the 27 ways to re-draw three
/// evenings.". Firm from nine in ten, likely from six in ten, else a guess (common practice, no source).
[[nodiscard]] std::string sureness(const plan::Plan& plan, std::size_t tree);

/// "SSE and ENE"
[[nodiscard]] std::string facings_in_words(const siting::Candidate& candidate);

}  // namespace roostward::report
