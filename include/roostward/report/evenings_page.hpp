#pragma once

#include <functional>
#include <string>

#include "roostward/core/time.hpp"
#include "roostward/plan/evenings_plan.hpp"

namespace roostward::report {

/// A moment by the clock on the wall, as "21:04".
using WallClock = std::function<std::string(core::Instant)>;

/// evenings.html: what these evenings will show and what they will not, one card a team and evening to print,
/// a notice for neighbours and a list of hazards to fill in. One file, no scripts.
[[nodiscard]] std::string evenings_page(const plan::EveningsPlan& plan, const WallClock& clock);

}  // namespace roostward::report
