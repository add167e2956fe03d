#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "roostward/siting/candidates.hpp"

namespace roostward::siting {

/// So many trees of a kind take part in trials: the choice does not go down to the others.
inline constexpr std::size_t most_taking_part = 2000;

/// Trees that could come into the choice if the data or the weights were a little different, in order of
/// rank: those with half the flight that is enough evidence, and all that must be chosen.
[[nodiscard]] std::vector<std::size_t> in_contention(std::span<const Candidate> candidates);

}  // namespace roostward::siting
