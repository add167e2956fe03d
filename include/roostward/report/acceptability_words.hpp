#pragma once

#include <optional>
#include <string>
#include <vector>

#include "roostward/core/document.hpp"
#include "roostward/plan/plan.hpp"

/// How firmly trees are chosen, and which cannot be told apart.
namespace roostward::report {

/// Fewer evenings than these can hardly be re-drawn: of them nothing is told.
inline constexpr std::size_t least_evenings_for_stays = 3;

/// "24 of the 27 ways to re-draw three evenings", "196 of 200 re-draws of twelve evenings"; of five to seven
/// evenings, which can be drawn in thousands of ways, of a hundred. Empty below three evenings.
[[nodiscard]] std::string share_of_redraws(const siting::Certainty& certainty, double share);

/// "24"; empty below three evenings.
[[nodiscard]] std::string count_of_redraws(const siting::Certainty& certainty, double share);

/// "24 of 27"; empty below three evenings.
[[nodiscard]] std::string short_share_of_redraws(const siting::Certainty& certainty, double share);

/// What these are counted of: "ways to re-draw three evenings", "re-draws of the twelve evenings".
[[nodiscard]] std::string what_is_redrawn(const siting::Certainty& certainty);
/// How many there are: 27.
[[nodiscard]] double number_of_redraws(const siting::Certainty& certainty);

/// "Stays chosen in 24 of the 27 ways to re-draw three evenings, and in 80 % of other weightings."; empty
/// where nothing can be drawn anew.
[[nodiscard]] std::string stays_chosen(const plan::Plan& plan, std::size_t tree);

/// "In other weightings site 4 in 94 % and 6 in 80 % stays chosen; the other sites always."; empty where
/// there are none.
[[nodiscard]] std::string about_other_weights(const plan::Plan& plan);

/// "Ranks of one group cannot be told apart: B 2–5 · C 6–14."; a tree alone in its group is not told of.
[[nodiscard]] std::string about_groups(const plan::Plan& plan);

/// The share of other weightings that choose a tree; null where the place takes no part.
[[nodiscard]] core::Document stays_chosen_weights(const plan::Plan& plan, std::size_t tree);

/// The letter of each group in order; empty where a tree is alone in it, so that nothing is told of it.
[[nodiscard]] std::vector<std::string> shared_groups(const plan::Plan& plan);

/// A, B … Z, AA, AB …; null for a tree further down the ranking.
[[nodiscard]] core::Document group_of(const siting::Candidate& candidate);

/// All draws of weights and evenings, as plan.json lists them.
[[nodiscard]] core::Object acceptability_document(const plan::Plan& plan);

}  // namespace roostward::report
