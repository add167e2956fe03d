#pragma once

#include <string>

#include "roostward/plan/plan.hpp"
#include "roostward/report/way_there.hpp"

namespace roostward::report {

/// What is printed from report.html and carried away: a page a site for the climber, a letter an owner, and a
/// table for the committee. HTML that reads without scripts; black and white will do.
[[nodiscard]] std::string sheets(const plan::Plan& plan, const WaysThere& ways);

}  // namespace roostward::report
