#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "roostward/trees/suitability.hpp"

namespace roostward::io {

/// The words of a tree's vigour, from best to worst.
inline constexpr std::array<std::string_view, 4> condition_words{"good", "fair", "poor", "dead"};

/// Each of the words as what it means; every one must be among `condition_words`.
[[nodiscard]] std::vector<trees::Condition> conditions_from(const std::vector<std::string>& words);

}  // namespace roostward::io
