#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "files/layer_sample.hpp"
#include "recognise/recognise_lengths.hpp"
#include "roostward/io/recognise.hpp"

namespace roostward::io {

/// Which fields of a layer a sample holds.
struct FieldsFound {
    std::vector<FieldGuess> fields;  ///< in the order of the columns
    std::vector<std::string> left;
    std::vector<std::string> notes;
};

/// By names, then by values. `place` is where the site lies, where that is known.
[[nodiscard]] FieldsFound fields_of(const LayerSample& sample, std::string_view role,
                                    const std::optional<core::GeographicPoint>& place);

/// The column whose name says the field best; empty where none does. Without a look at values.
[[nodiscard]] std::optional<std::size_t> column_named(const LayerSample& sample, std::string_view role,
                                                      std::string_view field);

/// Their words and codes for condition, yes and no, in ours.
struct ValuesGuess {
    std::map<std::string, std::string> values;
    std::string confirm;
};
/// Empty where too few of the values are known words, and codes show no direction.
[[nodiscard]] std::optional<ValuesGuess> condition_values(const ColumnSample& column);
/// Empty where the values are no yes and no. No map where `check` reads them as they are.
[[nodiscard]] std::optional<ValuesGuess> yes_no_values(const ColumnSample& column);
/// How many of the values are said by words that map to a condition, from 0 to 1.
[[nodiscard]] double share_of_condition_words(const ColumnSample& column);
/// How many different conditions they are.
[[nodiscard]] std::size_t kinds_of_condition(const ColumnSample& column);
/// Whether most values begin with the Latin name of a genus.
[[nodiscard]] bool holds_latin_names(const ColumnSample& column);

/// Whether most values are of two words and more.
[[nodiscard]] bool holds_two_words(const ColumnSample& column);

/// A filter that leaves out what is no standing tree, where a column says so that the reader of trees does
/// not look into; empty where none does.
struct OnlyGuess {
    std::string only;
    std::string confirm;
};
[[nodiscard]] std::optional<OnlyGuess> only_guess(const LayerSample& sample,
                                                  const std::vector<FieldGuess>& taken);

}  // namespace roostward::io
