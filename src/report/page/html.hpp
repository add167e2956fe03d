#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "roostward/core/time.hpp"
#include "roostward/report/figures.hpp"

/// Pieces of HTML. What is called `inner` or `cell` is HTML already; what is called `text` is not.
namespace roostward::report {

/// An element with its start tag as given, as "p class=\"note\"".
[[nodiscard]] std::string element(std::string_view start, std::string_view inner);

/// A name from somebody's file: it keeps its own direction of writing.
[[nodiscard]] std::string name(std::string_view text);

/// A number that the scripts write as the reader's country does.
[[nodiscard]] std::string figure(double value, int decimals = 0);

/// A rounded figure and its range, "35 (20–60)", that the scripts write as the reader's country does; "?"
/// where there is no range.
[[nodiscard]] std::string with_range(const Figure& figure);
/// Without its range; "<2" where it is less than half a step.
[[nodiscard]] std::string rounded(const Figure& figure);

/// A date that the scripts write as the reader's country does.
[[nodiscard]] std::string day(core::Date date);

[[nodiscard]] std::string list_of(const std::vector<std::string>& texts);

struct Column {
    std::string title;  ///< text
    bool number = false;
};
using Row = std::vector<std::string>;
/// Where the screen is narrow: one can be scrolled sideways, or its cells stand below each other.
enum class Narrow { scrolls, stacks };
/// `title` names it for those who cannot see it.
[[nodiscard]] std::string table(std::string_view title, const std::vector<Column>& columns,
                                const std::vector<Row>& rows, Narrow narrow = Narrow::scrolls);

}  // namespace roostward::report
