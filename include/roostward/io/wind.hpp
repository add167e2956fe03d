#pragma once

#include <optional>
#include <string_view>

#include "roostward/core/units.hpp"

namespace roostward::io {

/// The wind as people write it who have no meter: "F3", "Bft 3-4", "force 4", "light air", "breezy", "12
/// km/h". A force is the middle of its class on the Beaufort scale (WMO-No. 8, 2021, volume I, table 5.1,
/// written down from memory), of two forces the mean; 12 is its lower end. Words that are not on that scale,
/// as "breezy", are common practice without a source. Empty where it is none of these, or metres a second.
[[nodiscard]] std::optional<core::MetresPerSecond> wind_in_words(std::string_view written);

}  // namespace roostward::io
