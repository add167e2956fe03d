#pragma once

#include <span>

#include "roostward/evenings/choose_posts.hpp"
#include "watching.hpp"

namespace roostward::evenings {

/// What watching the spots is worth. Where nothing is known, all the same. After the first evening, as much
/// as half an hour more raises the expected flight at the trees chosen (see worth_of_watching), the best of a
/// spot's trees held against the site that would fall out first, a chosen one against the best that is not
/// chosen; and a little for every spot, since a belief may be wrong.
[[nodiscard]] Values values_of(std::span<const Spot> spots, const KnownTrees& known, const Asked& asked);

}  // namespace roostward::evenings
