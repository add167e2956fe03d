#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "roostward/core/time.hpp"

/// Pieces of HTML. What is called `inner` or `cell` is HTML already; what is called `text` is not.
namespace roostward::report {

/// An element with its start tag as given, as "p class=\"note\"".
[[nodiscard]] std::string element(std::string_view start, std::string_view inner);

/// A name from somebody's file: it keeps its own direction of writing.
[[nodiscard]] std::string name(std::string_view text);

/// A number that the scripts write as the reader's country does.
[[nodiscard]] std::string figure(double value, int decimals = 0);

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
