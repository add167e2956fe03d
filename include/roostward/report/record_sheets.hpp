#pragma once

#include <string>
#include <vector>

#include "roostward/geo/layer.hpp"

/// Blank sheets that people fill in: their columns are the fields that the readers look for.
namespace roostward::report {

struct RecordColumn {
    std::string name;
    std::string meaning;  ///< one short sentence
};

struct RecordSheet {
    std::string name;
    std::vector<RecordColumn> columns;
};

/// Passes, watches and trees.
[[nodiscard]] std::vector<RecordSheet> record_sheets();

/// A header and no rows.
[[nodiscard]] geo::Table blank_table(const RecordSheet& sheet);

/// The blank table, and a second sheet that says what each column is for; it holds one cell a row, so that
/// nobody takes it for a table.
[[nodiscard]] std::vector<geo::NamedTable> blank_workbook(const RecordSheet& sheet);

}  // namespace roostward::report
