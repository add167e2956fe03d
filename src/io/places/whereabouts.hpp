#pragma once

#include <string>
#include <variant>

#include "roostward/core/point.hpp"

// Where notes say that something was without giving coordinates. What the words mean is known once watches,
// squares and trees lie in the planning plane: see locating.hpp.
namespace roostward::io {

/// From where the watch of the row stood.
struct FromStation {
    core::Metres distance;
    core::Degrees true_direction;
    core::Metres accuracy;  ///< standard deviation where the row tells none
};

/// At the middle of a named square.
struct InSquare {
    std::string square;
};

/// At a tree of the inventory.
struct NearTree {
    std::string tree;
};

using Whereabouts = std::variant<FromStation, InSquare, NearTree>;

/// A record whose position is not set yet.
template <class Record>
struct Elsewhere {
    Record record;
    Whereabouts where;
};

}  // namespace roostward::io
