#pragma once

#include <optional>
#include <string>

#include "roostward/core/document.hpp"
#include "roostward/plan/plan.hpp"

/// How firmly trees are chosen, and which cannot be told apart.
namespace roostward::report {

/// "Stays chosen in 24 of the 27 ways to re-draw three evenings, and in 80 % of other weightings."; empty
/// where nothing can be drawn anew.
[[nodiscard]] std::string stays_chosen(const plan::Plan& plan, std::size_t tree);

/// "In other weightings site 4 in 94 % and 6 in 80 % stays chosen; the other sites always."; empty where
/// there are none.
[[nodiscard]] std::string about_other_weights(const plan::Plan& plan);

/// "Ranks of a group cannot be told apart: A 1 · B 2–5 · C 6–14."
[[nodiscard]] std::string about_groups(const plan::Plan& plan);

/// The share of other weightings that choose a tree; null where the place takes no part.
[[nodiscard]] core::Document stays_chosen_weights(const plan::Plan& plan, std::size_t tree);

/// A, B … Z, AA, AB …; null for a tree further down the ranking.
[[nodiscard]] core::Document group_of(const siting::Candidate& candidate);

/// All draws of weights and evenings, as plan.json lists them.
[[nodiscard]] core::Object acceptability_document(const plan::Plan& plan);

}  // namespace roostward::report
