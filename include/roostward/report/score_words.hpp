#pragma once

#include "roostward/core/document.hpp"
#include "roostward/plan/plan.hpp"

/// What scores are made of, for plan.json.
namespace roostward::report {

/// Of so many trees, best first, plan.json takes the score apart.
inline constexpr std::size_t most_scores = 1000;

/// The best trees that can be chosen, and those to settle first that would rank among them.
[[nodiscard]] core::Object scores_document(const plan::Plan& plan);

}  // namespace roostward::report
