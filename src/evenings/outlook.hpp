#pragma once

#include "roostward/evenings/choose_posts.hpp"

namespace roostward::evenings {

/// Works out, tree by tree, what the posts will show: where to look and why each is held, the shares watched,
/// the corner left unwatched, and which sites are confirmed.
void tell_outlook(Posts& posts, const Ground& ground, const KnownTrees& known, const Asked& asked);

}  // namespace roostward::evenings
