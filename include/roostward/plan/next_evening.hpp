#pragma once

#include <cstddef>
#include <optional>

#include "roostward/core/parallel.hpp"
#include "roostward/evenings/choose_posts.hpp"

namespace roostward::plan {

struct Plan;

/// One more evening like the last: as long, with as many teams that see as far, standing anywhere on the
/// allowed ground.
struct NextEvening {
    std::size_t teams = 0;  ///< as many as watched at the same time
    evenings::Posts posts;
};

/// Where its teams would stand, and what that would show. Empty where no watch was held at a station, or
/// nobody can stand near a tree that could hold a box.
[[nodiscard]] std::optional<NextEvening> next_evening(const Plan& plan, core::Threads threads);

}  // namespace roostward::plan
