#pragma once

#include <vector>

#include "roostward/plan/plan.hpp"

namespace roostward::report {

/// A flight, or a straight part of one, beside a flight line.
struct Heading {
    core::Degrees bearing;  ///< true, in [0, 360)
    double animals = 0.0;   ///< of a part: its share of them
    bool ahead = true;      ///< the way the line is drawn
};

/// For every flight line what was seen within max(h, 10 m) of it and has a direction.
[[nodiscard]] std::vector<std::vector<Heading>> flights_behind_lines(const plan::Plan& plan);

}  // namespace roostward::report
