#pragma once

#include <cstddef>
#include <string_view>

namespace roostward::core {

/// Length of the well-formed UTF-8 sequence that starts at `text[at]` (Unicode 15, table 3-7); 0 where there
/// is none.
[[nodiscard]] std::size_t utf8_length(std::string_view text, std::size_t at);

}  // namespace roostward::core
