#pragma once

#include <span>
#include <vector>

#include "roostward/activity/flight_lines.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/siting/candidates.hpp"

namespace roostward::siting {

/// Tells every watched tree its nearest flight line, from the stem; of equally near ones the first. Where
/// nobody watched for long enough a line near by would not be known, so none is told.
void measure_line_offsets(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                          std::span<const activity::FlightLine> lines, core::Threads threads);

/// Where the flight lines cross the roads.
[[nodiscard]] std::vector<core::PlanePoint> road_crossings(std::span<const activity::FlightLine> lines,
                                                           const trees::Features& roads);

}  // namespace roostward::siting
