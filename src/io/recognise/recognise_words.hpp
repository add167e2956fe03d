#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "words/column_names.hpp"

// Everyday words of English, German, French, Spanish, Dutch, Italian, Danish, Swedish and Portuguese by which
// a file, a column or a value is known. All of it is common knowledge, no source.
namespace roostward::io {

/// Names of columns that hold a field, or something akin that is not read.
struct FieldWords {
    std::string_view role;   ///< layer
    std::string_view field;  ///< ours, or one of the two below
    std::vector<ListedWord> english;
    std::vector<ListedWord> others;
    std::vector<ListedWord> never;  ///< with one of these in its name a column holds something else
};
/// Stand for dbh_cm as a girth, and for a width that no field takes.
inline constexpr std::string_view girth_field = "girth";
inline constexpr std::string_view crown_width_field = "crown width";

[[nodiscard]] const std::vector<FieldWords>& field_words();

/// Words in a file's name, and columns that other map data bring, by layer.
struct LayerWords {
    std::string_view role;
    std::vector<ListedWord> names;
};
[[nodiscard]] const std::vector<LayerWords>& layer_words();

/// What a word in their column means in our words, both folded.
struct ValueWord {
    std::string theirs;
    std::string_view ours;
};
[[nodiscard]] const std::vector<ValueWord>& condition_words_of_the_world();
[[nodiscard]] const std::vector<ValueWord>& yes_no_words_of_the_world();
/// Trees' Latin generic names.
[[nodiscard]] const std::vector<std::string>& genera();
/// Say that a number is a class and not a measure.
[[nodiscard]] const std::vector<ListedWord>& class_words();

}  // namespace roostward::io
