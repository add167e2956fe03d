#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "roostward/core/units.hpp"

namespace roostward::evenings {

/// From each stop to each.
using Ways = std::vector<std::vector<core::Metres>>;

/// A way past all stops, as indices into them: of those at most a quarter and 40 m longer than the shortest,
/// the one that puts late what is due late, having been watched early before (`due_late`; negative: early).
/// All orders are tried: for a handful of stops.
[[nodiscard]] std::vector<std::size_t> in_turn(const Ways& ways, std::span<const double> due_late);

[[nodiscard]] core::Metres way_past(const Ways& ways, std::span<const std::size_t> order);

}  // namespace roostward::evenings
