#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "roostward/core/document.hpp"
#include "roostward/plan/plan.hpp"

namespace roostward::report {

/// How many sites are chosen, whether another set scores higher, and what keeps trees out.
[[nodiscard]] std::string outcome(const plan::Plan& plan);

/// A chosen tree nearer than the spacing, stem to stem.
struct TooNear {
    std::size_t site = 0;  ///< index of its tree
    core::Metres away;
};
/// The nearest of them; empty where there is none.
[[nodiscard]] std::optional<TooNear> too_near(const plan::Plan& plan, std::size_t tree);

/// Which rule keeps a tree that can be chosen out of the set.
[[nodiscard]] std::string why_not_chosen(const plan::Plan& plan, std::size_t tree);

/// "Chosen as site 2.", and whether the site file says that it must be.
[[nodiscard]] std::string why_chosen(const siting::Candidate& candidate);

/// For plan.json.
[[nodiscard]] core::Object choice_document(const plan::Plan& plan);

}  // namespace roostward::report
