#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "files/layer_sample.hpp"
#include "recognise/recognise_words.hpp"
#include "roostward/io/field_map.hpp"

// Which columns may hold which fields, by their names.
namespace roostward::io {

/// Fields that say where a row lies.
inline constexpr std::array<std::string_view, 4> place_fields{"lon", "lat", "x", "y"};

struct NameMatch {
    int score = 0;
    bool metric_word = false;  ///< a word of a language whose people do not count in inches
    std::string stem;          ///< the word that was found
};

/// One field of one column, and how well the name says it.
struct Pairing {
    int score = 0;
    std::size_t column = 0;
    const FieldWords* words = nullptr;
    NameMatch name;
};

/// The fields that the reader of a layer looks for; null where the layer has none of note.
[[nodiscard]] const std::vector<FieldSpec>* fields_read_of(std::string_view role);

/// Whether the reader of the layer looks for the field; true where it is not known what it looks for.
[[nodiscard]] bool is_read(std::string_view role, std::string_view field);

/// Best first. Without the fields of places, and without those that the reader does not know.
[[nodiscard]] std::vector<Pairing> pairings_of(const LayerSample& sample, std::string_view role);

/// Whether what stands in the column can be this field at all. A column in which nothing stands tells
/// nothing.
[[nodiscard]] bool values_fit(const LayerSample& sample, const ColumnSample& column, std::string_view field);

}  // namespace roostward::io
