#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "roostward/core/parallel.hpp"
#include "roostward/core/units.hpp"
#include "roostward/evenings/ground.hpp"
#include "roostward/evenings/known_trees.hpp"

namespace roostward::evenings {

/// Trees so close together that what is seen of one is seen of all, and no two of them can be sites.
struct Spot {
    core::PlanePoint middle;         ///< of the stems
    core::PlanePoint stem;           ///< of the tree nearest to the middle
    core::Metres crown_radius;       ///< its
    double watched = 0.0;            ///< hours, mean of the trees
    std::vector<std::size_t> trees;  ///< indices into the known trees
};
/// In squares of a fifth of the spacing, wider where there would be more than 8,000.
[[nodiscard]] std::vector<Spot> spots_of(std::span<const TreeKnown> trees, core::Metres spacing);

/// A spot as seen from a place.
struct Sighted {
    std::uint32_t spot = 0;
    float away = 0.0F;     ///< metres
    float through = 1.0F;  ///< share of passes that what is in the way leaves to be seen
};
/// What each place sees of the spots no farther than `reach`.
[[nodiscard]] std::vector<std::vector<Sighted>> sighted_from(std::span<const Place> places,
                                                             std::span<const Spot> spots,
                                                             const Ground& ground, core::Metres reach,
                                                             core::Threads threads);

}  // namespace roostward::evenings
