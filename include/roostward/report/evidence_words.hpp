#pragma once

#include <cstddef>
#include <string>

#include "roostward/plan/plan.hpp"

/// What keeps trees from having enough evidence (see siting::has_enough_evidence), and what would mend it.
namespace roostward::report {

enum class Lack {
    watched_too_little,  ///< on no evening for a fifth of min_watch_hours
    nothing_close,       ///< watched, and nothing flew close by on any evening
    used_once,           ///< on three evenings or more, and something flew close by on one
    little_flight        ///< less than a tenth of λ_ref
};

/// Of a tree that has too little evidence: the first of these that holds.
[[nodiscard]] Lack lack_of(const plan::Plan& plan, const siting::Candidate& candidate);

/// Of a tree that may hold a box: what was seen too little of, and what would mend it. Empty where it has
/// enough evidence, and for all other trees.
[[nodiscard]] std::string evidence_lacking(const plan::Plan& plan, std::size_t tree);

/// What would mend that a tree was not watched.
[[nodiscard]] std::string what_shows_a_tree(const plan::Plan& plan);

/// Trees that can be chosen but for their evidence.
[[nodiscard]] std::size_t trees_with_too_little(const plan::Plan& plan);

/// "No tree can be chosen yet: 4 trees could hold a box, but too little was seen at them: …", with what would
/// mend it. For a plan with such trees.
[[nodiscard]] std::string nothing_chosen_yet(const plan::Plan& plan);

}  // namespace roostward::report
