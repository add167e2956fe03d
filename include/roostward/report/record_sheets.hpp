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

/// Passes or watches of evenings to come: what is planned comes first, the rest is as in the sheet of this
/// name.
[[nodiscard]] RecordSheet planned_sheet(const std::string& name);

/// A header and no rows.
[[nodiscard]] geo::Table blank_table(const RecordSheet& sheet);

/// The table, and a second sheet that says what each column is for; it holds one cell a row, so that nobody
/// takes it for a table.
[[nodiscard]] std::vector<geo::NamedTable> workbook(const RecordSheet& sheet, geo::Table table);
[[nodiscard]] std::vector<geo::NamedTable> blank_workbook(const RecordSheet& sheet);

}  // namespace roostward::report
