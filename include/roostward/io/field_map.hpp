#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "roostward/io/layer_report.hpp"
#include "roostward/io/site_file.hpp"
#include "roostward/io/values.hpp"

namespace roostward::io {

/// A column name in everyday use, written as bare_word gives it, with the unit that it says.
struct Synonym {
    std::string_view word;
    std::string_view unit = {};
    bool girth = false;
};

/// A field of a layer. `unit` is the field's own.
struct FieldSpec {
    std::string_view name;
    std::string_view unit = {};
    Dimension dimension = Dimension::plain;
    std::vector<Synonym> synonyms = {};
};

/// A field and the column that it is read from, if any.
struct Field {
    std::string name;
    Dimension dimension = Dimension::plain;
    double micrometres = 1e6;  ///< in the field's own unit; for lengths
    std::optional<std::size_t> column;
    double factor = 1.0;  ///< from a bare number in the column to the field's own unit, girth included
    bool girth = false;
    std::map<std::string, std::string> values;  ///< their word → ours

    [[nodiscard]] bool given() const { return column.has_value(); }
};

/// Which column holds which field: the one that the site file names, else the one with the field's own name,
/// else the first of its synonyms. Case, spaces and marks do not matter.
class FieldMap {
 public:
    /// Throws Error{inputs} where the site file names a column that is not there, Error{site_file} for a
    /// field or unit that does not exist. Two columns for one field are a doubt in `report`.
    FieldMap(std::span<const FieldSpec> specs, const std::vector<std::string>& columns,
             const InputSource& source, LayerReport& report);

    [[nodiscard]] const Field& at(std::string_view name) const;
    [[nodiscard]] const std::vector<Field>& all() const { return fields_; }
    /// One mark a column: whether a field is read from it.
    [[nodiscard]] std::vector<bool> wanted() const;
    /// "dbh_cm ← girth_in (girth, in in)", one a field that has a column.
    [[nodiscard]] const std::vector<std::string>& told() const { return told_; }

 private:
    std::vector<Field> fields_;
    std::vector<std::string> told_;
    std::size_t column_count_ = 0;
};

}  // namespace roostward::io
