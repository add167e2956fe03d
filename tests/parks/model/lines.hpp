#pragma once

#include <vector>

#include "parks/model/park.hpp"
#include "roostward/activity/flight_lines.hpp"

namespace roostward::parks {

/// The flight lines that roostward finds in a park. Reads nothing of the truth.
[[nodiscard]] std::vector<activity::FlightLine> lines_of(const Park& park, activity::Bandwidth bandwidth);

/// How well lines and true routes agree, in metres; sums of several parks add up.
struct LineTally {
    double true_length =
        0.0;  ///< of routes of 8 flights an hour and more, on ground watched for 1 h and more
    double found_length = 0.0;  ///< of that, with a line within 10 m
    double line_length = 0.0;
    double right_length = 0.0;  ///< of that, with a route of any use within 10 m

    LineTally& operator+=(const LineTally& other);
};
[[nodiscard]] LineTally tally_of(const Park& park, const std::vector<activity::FlightLine>& lines);

/// A park in which animals forage anywhere at a constant rate and nobody has a route.
[[nodiscard]] Park constant_rate_park(std::uint64_t seed, std::size_t evenings = 3);

}  // namespace roostward::parks
