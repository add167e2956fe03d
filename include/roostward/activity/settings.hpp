#pragma once

#include <optional>

#include "roostward/core/units.hpp"

namespace roostward::activity {

struct Settings {
    std::optional<core::Metres> bandwidth;  ///< empty: by the rule of thumb
    std::optional<core::Hours> shrink;      ///< empty: min_watch
    core::Metres cell{1.0};
    core::Hours min_watch{0.25};  ///< effective watching below which a place counts as not watched
};

}  // namespace roostward::activity
