#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "roostward/plan/plan.hpp"

namespace roostward::report {

struct Counted {
    std::string name;
    std::size_t count = 0;
};

/// Trees in each state, every state named, in order of gravity.
[[nodiscard]] std::vector<Counted> states(const plan::Plan& plan);

/// Trees that a rule puts into a state, commonest first. A tree counts for each of its rules.
[[nodiscard]] std::vector<Counted> reasons(const plan::Plan& plan, trees::State state);

[[nodiscard]] std::size_t trees_in(const plan::Plan& plan, trees::State state);

/// Who must decide something of trees to settle first, by how many trees, most first. A tree counts for each.
[[nodiscard]] std::vector<Counted> deciders(const plan::Plan& plan);

/// Trees where nobody watched long enough, in whichever state.
[[nodiscard]] std::size_t trees_not_watched(const plan::Plan& plan);

/// What a finding means and what to do, with how many rows say the same.
[[nodiscard]] std::string sentence_of(const core::Finding& finding);

/// Findings of each kind, commonest first.
[[nodiscard]] std::vector<Counted> findings_by_kind(const core::Findings& findings);

}  // namespace roostward::report
