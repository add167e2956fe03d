#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "roostward/io/spreadsheet.hpp"

// Where in a spreadsheet the table is that people mean.
namespace roostward::io {

/// A table in a sheet: its named columns and the rows below its header.
struct SheetTable {
    std::size_t sheet = 0;             ///< in the workbook
    std::size_t header = 0;            ///< index of its row
    std::vector<std::string> columns;  ///< by name
    std::vector<std::uint32_t> at;     ///< in which column of the sheet each stands, rising
    std::vector<std::size_t> totals;   ///< indices of rows at the end that sum up those above, rising
    std::vector<RowTrouble> notes;     ///< what the reader should know of how the sheet was taken
};

/// Indices of the sheets with rows: not hidden, and with something below a header.
[[nodiscard]] std::vector<std::size_t> sheets_with_rows(const Workbook& book);

/// The table in the sheet of that name; where `name` is empty, in the only sheet with rows. Throws
/// Error{inputs} that lists the sheets.
[[nodiscard]] SheetTable table_in(const Workbook& book, const std::string& name);

/// Index of the row that names the columns: the first with at least half as many cells as the widest, all of
/// them texts; where none in twenty is, the first of that width. Empty where no row has two cells.
[[nodiscard]] std::optional<std::size_t> header_row(const Sheet& sheet);

/// Indices of the rows at the end that hold numbers and the word "Total", "Summe", "Average" or such; lines
/// of a single text may stand among them.
[[nodiscard]] std::vector<std::size_t> total_rows(const Sheet& sheet, std::size_t header);

}  // namespace roostward::io
