#pragma once

#include <chrono>
#include <string>

#include "roostward/core/time.hpp"

namespace roostward::core {

/// From an instant on a clock is so far ahead of UTC.
struct ClockOffset {
    Instant from;
    std::chrono::seconds before{}, after{};  ///< ahead of UTC until then, and since
    std::string name;                        ///< "BST"
    bool daylight_saving = false;
};

}  // namespace roostward::core
