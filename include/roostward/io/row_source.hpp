#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "roostward/geo/crs.hpp"
#include "roostward/geo/shape.hpp"
#include "roostward/io/site_file.hpp"

namespace roostward::io {

/// What one cell holds: nothing, a number, or text, which lives as long as its row is being visited.
using Value = std::variant<std::monostate, double, std::string_view>;

/// Something that makes a row, or the whole layer, doubtful or useless before its fields are read.
struct RowTrouble {
    std::string kind;
    std::string value;
    std::string sentence;
    bool nothing_wrong = false;  ///< the row is no matter of its layer, and does not make the file bad
};

/// A cell that holds no value, but an error; the value is then empty.
struct CellTrouble {
    std::size_t column = 0;
    std::string_view shown;
};

struct SourceRow {
    std::size_t number =
        0;  ///< line of a text file, row of a spreadsheet, else number of the feature, from 1
    std::span<const Value> values;        ///< one a column; columns that are not wanted may be empty
    const geo::Shape* shape = nullptr;    ///< in the source's system; null where the format has no geometry
    const RowTrouble* trouble = nullptr;  ///< the row cannot be read; its values are empty
    std::span<const CellTrouble> cell_troubles = {};
};

/// A file of rows: text, spreadsheet or GIS, all look the same from here on.
class RowSource {
 public:
    /// Returns whether to go on.
    using Visitor = std::function<bool(const SourceRow&)>;

    virtual ~RowSource() = default;
    [[nodiscard]] virtual const std::vector<std::string>& columns() const = 0;
    [[nodiscard]] virtual bool has_geometry() const = 0;
    /// Of the geometry; empty where the file does not say.
    [[nodiscard]] virtual const std::optional<geo::Crs>& crs() const = 0;
    /// About how many rows there are, for reserving memory; 0 where that is not known at once.
    [[nodiscard]] virtual std::size_t expected_rows() const { return 0; }
    /// What should be said about the file as a whole.
    [[nodiscard]] virtual std::vector<RowTrouble> notes() const { return {}; }
    /// Visits the rows that pass `only`, in the order of the file. May be called again. `wanted` has one mark
    /// a column.
    virtual void for_each(const std::vector<bool>& wanted, const Visitor& visit) = 0;
};

/// Opens CSV, XLSX, ODS and every vector format that GDAL reads. Throws Error{inputs} where the file is
/// missing, a folder, empty, not readable, or has no such layer.
[[nodiscard]] std::unique_ptr<RowSource> open_rows(const InputSource& source);

}  // namespace roostward::io
