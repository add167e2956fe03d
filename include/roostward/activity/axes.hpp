#pragma once

#include <span>

#include "roostward/core/units.hpp"

namespace roostward::activity {

/// One direction of flight and how many animals took it.
struct Heading {
    core::Degrees bearing;
    double weight = 1.0;
};

/// The line that headings run along, whichever way they point.
struct Axis {
    core::Degrees bearing;   ///< in [0, 180)
    double resultant = 0.0;  ///< 1 where all run along it, 0 where none is preferred
};

/// Mean axis by doubled angles (Mardia & Jupp 2000, Directional Statistics, 9.1): double, average, halve. No
/// headings, or none preferred: bearing 0, resultant 0.
[[nodiscard]] Axis mean_axis(std::span<const Heading> headings);

}  // namespace roostward::activity
