#pragma once

#include <string>
#include <vector>

#include "roostward/plan/plan.hpp"

namespace roostward::report {

/// How many trees could hold a box, how many more once something is settled and with whom, how many are ruled
/// out and by what: a sentence each.
[[nodiscard]] std::vector<std::string> screening_sentences(const plan::Plan& plan);

}  // namespace roostward::report
