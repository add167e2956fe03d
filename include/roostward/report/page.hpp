#pragma once

#include <optional>
#include <string>

#include "roostward/core/picture.hpp"
#include "roostward/plan/plan.hpp"
#include "roostward/report/plan_document.hpp"

namespace roostward::report {

/// The ground that the map of the page may show: what was watched and 200 m about it.
[[nodiscard]] core::Box mapped_ground(const plan::Plan& plan);

/// report.html: one file that needs nothing else, neither network nor other files. It reads without scripts;
/// with them it has a map, cards of trees, and a table to sort and filter. Its trees are those within 200 m
/// of ground that somebody watched. The picture lies behind the map. Nothing in it tells when it was made.
[[nodiscard]] std::string page(const plan::Plan& plan, const RunFacts& facts,
                               const std::optional<core::Picture>& basemap = std::nullopt);

}  // namespace roostward::report
