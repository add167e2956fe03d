#pragma once

#include <optional>

#include "roostward/core/random.hpp"
#include "roostward/survey/records.hpp"

namespace roostward::parks {

/// The pass that somebody at the watch writes down of a flight, if it is noticed. `range`: the half-normal's
/// scale at that moment.
[[nodiscard]] std::optional<survey::Pass> noticed(const geo::Line& path, const survey::Watch& watch,
                                                  core::Metres range, core::RandomStream& random);

}  // namespace roostward::parks
