#pragma once

#include <string>
#include <string_view>

#include "roostward/core/point.hpp"
#include "roostward/report/chosen_gpx.hpp"

/// Pieces of GPX 1.1.
namespace roostward::report {

[[nodiscard]] std::string gpx_element(std::string_view name, std::string_view text);

/// `inner` is GPX already.
[[nodiscard]] std::string gpx_waypoint(const core::GeographicPoint& place, std::string_view inner);

/// `waypoints` is GPX already.
[[nodiscard]] std::string gpx_file(std::string_view title, std::string_view about, const GpxFacts& facts,
                                   std::string_view waypoints);

}  // namespace roostward::report
