#pragma once

#include <string>

#include "roostward/core/document.hpp"
#include "roostward/plan/plan.hpp"

namespace roostward::report {

/// How many sites are chosen, whether another set scores higher, and what keeps trees out.
[[nodiscard]] std::string outcome(const plan::Plan& plan);

/// Which rule keeps a tree that can be chosen out of the set.
[[nodiscard]] std::string why_not_chosen(const plan::Plan& plan, std::size_t tree);

/// "Chosen as site 2.", and whether the site file says that it must be.
[[nodiscard]] std::string why_chosen(const siting::Candidate& candidate);

/// For plan.json.
[[nodiscard]] core::Object choice_document(const plan::Plan& plan);

}  // namespace roostward::report
