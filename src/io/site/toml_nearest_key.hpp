#pragma once

#include <span>
#include <string>
#include <string_view>

namespace roostward::io {

/// The known key whose last part is nearest to that of `key` by edit distance (Levenshtein 1966); among
/// equals one of the same table, then the first by name. Empty where none is known.
[[nodiscard]] std::string nearest_key(std::string_view key, std::span<const std::string> known);

}  // namespace roostward::io
