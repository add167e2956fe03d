#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "roostward/io/row_reader.hpp"
#include "roostward/survey/animal_words.hpp"

namespace roostward::io {

struct OpenLayer;

/// Reads which animal a row is about: from its field, and, where another text column of the file plainly
/// names an animal that does not count, from that.
class AnimalColumns {
 public:
    /// Refers to the dictionary and to the source. Has all columns of the layer read that no field took.
    AnimalColumns(OpenLayer& layer, const survey::AnimalDictionary& dictionary, const InputSource& source);

    /// As written; empty where it is not told.
    [[nodiscard]] std::string animal_in(const RowReader& row);
    /// A doubt for each column that holds words for animals, and that no field took.
    void tell(LayerReport& report) const;

 private:
    struct Column {
        std::size_t column = 0;
        std::string name;
        std::map<std::string, std::size_t> rows{};  ///< by the name of the group
    };

    const Field& animal_;
    survey::AnimalReader words_;
    std::vector<Column> others_;
};

/// The field of the animal with its everyday names.
[[nodiscard]] FieldSpec animal_field();

}  // namespace roostward::io
