#pragma once

#include <string>

#include "roostward/plan/plan.hpp"
#include "roostward/report/plan_document.hpp"

namespace roostward::report {

/// report.html: one file that needs nothing else, neither network nor other files. It reads without scripts;
/// with them it has a map, cards of trees, and a table to sort and filter. Its trees are those within 200 m
/// of ground that somebody watched. Nothing in it tells when it was made.
[[nodiscard]] std::string page(const plan::Plan& plan, const RunFacts& facts);

}  // namespace roostward::report
