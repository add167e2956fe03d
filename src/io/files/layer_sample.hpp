#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "roostward/core/grid.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/io/site_file.hpp"
#include "words/column_names.hpp"

// A look at a layer whose meaning is not known yet.
namespace roostward::io {

/// What stands in one column, of the rows that were looked at.
struct ColumnSample {
    std::string name;
    ColumnName parts;
    std::size_t filled = 0;
    std::map<std::string, std::size_t> values;  ///< as written, with counts; not all where `many`
    bool many = false;                          ///< more different values than are kept
    std::vector<double> by_row;                 ///< bare numbers; not-a-number where there is none
    std::vector<double> numbers;                ///< the same without gaps, ascending
    std::size_t numeric = 0;                    ///< cells that hold a number, with or without a unit
    std::size_t with_unit = 0;                  ///< of them those with a unit or a range
    std::size_t times = 0, dates = 0;           ///< cells that hold a time of day, a date
    std::size_t unordered_dates = 0, day_first = 0, month_first = 0;

    [[nodiscard]] bool all_numeric() const { return filled > 0 && numeric * 20 >= filled * 19; }
    [[nodiscard]] bool distinct(std::size_t rows) const;
    /// Of the numbers above 0; 0 where there are none.
    [[nodiscard]] double quantile(double share) const;
    [[nodiscard]] double share_whole() const;
    /// Of the whole numbers above 10 those that `step` divides.
    [[nodiscard]] double share_of_multiples(int step) const;
    [[nodiscard]] double highest() const { return numbers.empty() ? 0.0 : numbers.back(); }
};

struct LayerSample {
    InputSource source;
    std::vector<ColumnSample> columns;
    std::size_t rows = 0;
    std::size_t points = 0, lines = 0, polygons = 0;  ///< features that hold one
    bool has_geometry = false;
    std::optional<geo::Crs> crs;
    std::vector<core::PlanePoint> places;  ///< a point of every geometry, in the file's own system
};

/// Looks at up to some 20,000 rows, evenly spread. Throws Error{inputs}.
[[nodiscard]] LayerSample sample_of(const InputSource& source);

/// The layers of a file, or one empty name where it has only one. Throws Error{inputs}.
[[nodiscard]] std::vector<std::string> layers_in(const InputSource& source);

}  // namespace roostward::io
