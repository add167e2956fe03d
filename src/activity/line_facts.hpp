#pragma once

#include <span>
#include <vector>

#include "line_path.hpp"
#include "roostward/activity/flight_lines.hpp"

namespace roostward::activity {

/// Fills in what the flights behind a line tell: how many, on which evenings, axis, two-way share, height.
/// `watched` holds one an evening.
void tell_flights(FlightLine& line, const std::vector<PlaceBy>& behind, const survey::Survey& survey,
                  const std::vector<std::uint8_t>& watched);

}  // namespace roostward::activity
