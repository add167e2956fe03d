#pragma once

#include <optional>

#include "roostward/io/row_reader.hpp"
#include "words/bounds.hpp"

namespace roostward::io {

/// How many, in figures or words: "3", "two bats", "a pair", "half a dozen", "2 or 3" (the lower end, with a
/// doubt). Empty where nothing is written, or where it says no number: "several" cannot be counted, and the
/// row was set aside. So it is beyond what is possible; what is doubtful is told.
[[nodiscard]] std::optional<double> count_in(const RowReader& row, const Field& field, const Bound& bound);

}  // namespace roostward::io
