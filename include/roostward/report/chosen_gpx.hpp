#pragma once

#include <string>
#include <string_view>

#include "roostward/core/time.hpp"
#include "roostward/plan/plan.hpp"

namespace roostward::report {

struct GpxFacts {
    std::string_view version;
    core::Instant stamp;  ///< what the file says it was made at
};

/// GPX 1.1: a waypoint for every chosen tree, site 1 first, with the way there, the height and which way each
/// box faces.
[[nodiscard]] std::string chosen_gpx(const plan::Plan& plan, const GpxFacts& facts);

}  // namespace roostward::report
