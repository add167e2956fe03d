#pragma once

#include <string>
#include <vector>

#include "roostward/core/document.hpp"
#include "roostward/plan/plan.hpp"

namespace roostward::report {

/// How far the choice hangs on single evenings, places, people and the bandwidth; one sentence each.
[[nodiscard]] std::vector<std::string> how_sure(const plan::Plan& plan);

/// The evening, place or person without which most sites fall out, in a sentence; empty where there is only
/// one of each.
[[nodiscard]] std::string what_moves_it_most(const plan::Plan& plan);

/// The same as plan.json lists it.
[[nodiscard]] core::Object certainty_document(const plan::Plan& plan);

}  // namespace roostward::report
