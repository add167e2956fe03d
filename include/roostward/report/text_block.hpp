#pragma once

#include <cstddef>
#include <initializer_list>
#include <string>
#include <string_view>

namespace roostward::report {

inline constexpr std::size_t terminal_columns = 80;

/// Code points of a UTF-8 text, which is what most terminals give a column each.
[[nodiscard]] std::size_t columns_of(std::string_view text);

/// Exactly `columns` wide: cut with "…" or filled with spaces on the right (on the left where `to_right`).
[[nodiscard]] std::string fitted(std::string_view text, std::size_t columns, bool to_right = false);

/// With a blank between; those that are empty are left out.
[[nodiscard]] std::string in_a_row(std::initializer_list<std::string> sentences);

/// Broken at spaces into lines of at most `terminal_columns`, where words allow it. The first line begins
/// with `lead`, the others are indented. Ends in a newline.
[[nodiscard]] std::string wrapped(std::string_view text, std::size_t indent = 0, std::string_view lead = {});

}  // namespace roostward::report
