#pragma once

#include <string>

#include "roostward/plan/plan.hpp"

// Plain text for a terminal, no line over 80 columns.
namespace roostward::report {

/// The answer: what nobody checked, the chosen sites, the next best trees, how many trees are in which state
/// and why, what the survey cannot say, cautions. `folder` is where the outputs are.
[[nodiscard]] std::string plan_text(const plan::Plan& plan, const std::string& folder);

/// Every setting with value, unit, who set it, status and source.
[[nodiscard]] std::string parameters_text(const std::vector<siting::Parameter>& parameters);

/// Findings grouped by kind with the first few of each, for standard error.
[[nodiscard]] std::string findings_text(const core::Findings& findings, std::size_t most_a_kind);

}  // namespace roostward::report
