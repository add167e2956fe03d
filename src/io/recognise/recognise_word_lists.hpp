#pragma once

#include "recognise/recognise_words.hpp"

// The parts that the lists of recognise_words.hpp are made of.
namespace roostward::io {

/// Words parted by spaces.
[[nodiscard]] std::vector<ListedWord> word_list(std::string_view words);
[[nodiscard]] FieldWords words(std::string_view role, std::string_view field, std::string_view english,
                               std::string_view others, std::string_view never);

[[nodiscard]] std::vector<FieldWords> tree_words();
[[nodiscard]] std::vector<FieldWords> place_words(std::string_view role);

}  // namespace roostward::io
