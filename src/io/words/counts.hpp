#pragma once

#include <optional>

#include "roostward/io/row_reader.hpp"

namespace roostward::io {

/// How many, in figures or words: "3", "two bats", "a pair", "half a dozen", "2 or 3" (the lower end, with a
/// doubt). Empty where nothing is written, or where the row was set aside: "several" cannot be counted.
[[nodiscard]] std::optional<double> count_in(const RowReader& row, const Field& field);

}  // namespace roostward::io
