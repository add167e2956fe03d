#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "files/layer_sample.hpp"

// Units of lengths, from what stands in their column.
namespace roostward::io {

/// Whether people count in inches and feet where the site lies.
enum class Custom { unknown, metric, inches };
[[nodiscard]] Custom custom_at(const std::optional<core::GeographicPoint>& place);

/// What is known of a column before its values are looked at.
struct LengthHints {
    std::string_view unit;     ///< that its name tells; empty: none
    bool metric_word = false;  ///< its name is a word of a language whose people do not count in inches
    Custom custom = Custom::unknown;
};

/// How bare numbers of a column are to be read. `confirm` is empty where the name tells it.
struct LengthGuess {
    std::string unit;
    bool girth = false;
    std::string confirm;
};

enum class Around { across, round, not_told };

/// Trunks: inches are told from centimetres by how large, how whole and how rounded the values are, by the
/// trees' heights (ascending rows as in the column; not-a-number where unknown) and by the custom of the
/// place; a girth from a diameter by its size, where no name tells.
[[nodiscard]] LengthGuess trunk_guess(const ColumnSample& column, Around told, const LengthHints& hints,
                                      const std::vector<double>& heights_m);

/// Heights of trees; empty where the column holds numbers of classes.
[[nodiscard]] std::optional<LengthGuess> height_guess(const ColumnSample& column, const LengthHints& hints);

/// Metres in one of the unit.
[[nodiscard]] double metres_in_one(std::string_view unit);

/// "values 3 to 42, all whole, median 12"
[[nodiscard]] std::string values_told(const ColumnSample& column);

/// Whether the column's name says that its numbers are classes or codes.
[[nodiscard]] bool named_as_class(const ColumnSample& column);

}  // namespace roostward::io
