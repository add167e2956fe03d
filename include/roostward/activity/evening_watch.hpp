#pragma once

#include "roostward/core/units.hpp"

namespace roostward::activity {

/// A place counts as watched on an evening from so many hours of effective watching on (inclusive): a fifth
/// of what it needs in all, so that five evenings that are enough together have one that counts. Common
/// practice, no source.
[[nodiscard]] constexpr core::Hours enough_on_an_evening(core::Hours min_watch) {
    return min_watch / 5.0;
}

}  // namespace roostward::activity
