#pragma once

#include "roostward/core/finding.hpp"
#include "roostward/siting/inputs.hpp"
#include "roostward/siting/settings.hpp"

namespace roostward::plan {

/// Known roosts whose animal is told.
struct SortedRoosts {
    core::Records<trees::KnownRoost> kept;          ///< of kin of the animals, and of nobody knows whom
    std::vector<survey::NeighbourSeen> neighbours;  ///< of animals to keep from: they live there
    core::Findings findings;                        ///< what is apart, one a kind
};

/// A roost of another kind of bat still is one, whoever the boxes are for; an owl's nest is none.
[[nodiscard]] SortedRoosts sorted_roosts(core::Records<trees::KnownRoost> roosts,
                                         const survey::Settings& settings);

}  // namespace roostward::plan
