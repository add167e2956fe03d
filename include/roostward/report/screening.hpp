#pragma once

#include <string>

#include "roostward/plan/plan.hpp"

/// What people read of a screening: which trees could hold a box, before anybody has watched.
namespace roostward::report {

/// What the terminal shows: at most 25 lines of 80 columns, most important first.
[[nodiscard]] std::string screening_text(const plan::Plan& plan, const std::string& folder);

/// report.html: the answer so far, a map, what to settle and with whom, what rules trees out, cautions. One
/// file, no scripts.
[[nodiscard]] std::string screening_page(const plan::Plan& plan);

}  // namespace roostward::report
