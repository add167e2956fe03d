#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "roostward/core/point.hpp"

namespace roostward::core {

struct Box {
    PlanePoint south_west;
    PlanePoint north_east;
    [[nodiscard]] bool holds(PlanePoint p) const {
        return p.easting >= south_west.easting && p.easting <= north_east.easting &&
               p.northing >= south_west.northing && p.northing <= north_east.northing;
    }
};

[[nodiscard]] Box widened(Box box, Metres by);

struct Cell {
    std::size_t row = 0;  ///< from 0, counted from the north
    std::size_t column = 0;
    friend bool operator==(const Cell&, const Cell&) = default;
};

/// Square cells, row 0 in the north, stored row by row. The only place that turns points into rows and
/// columns.
struct Grid {
    PlanePoint north_west;  ///< outer corner of cell (0, 0)
    Metres cell{1.0};
    std::size_t rows = 0;
    std::size_t columns = 0;

    [[nodiscard]] std::size_t size() const { return rows * columns; }
    [[nodiscard]] std::size_t index(Cell c) const { return c.row * columns + c.column; }
    [[nodiscard]] PlanePoint centre(Cell c) const {
        return {north_west.easting + (static_cast<double>(c.column) + 0.5) * cell.value(),
                north_west.northing - (static_cast<double>(c.row) + 0.5) * cell.value()};
    }
    /// The cell that holds the point: west and north edges belong to a cell, east and south to the next.
    [[nodiscard]] std::optional<Cell> cell_of(PlanePoint p) const;
    [[nodiscard]] Box box() const;
    friend bool operator==(const Grid&, const Grid&) = default;
};

/// The smallest grid of whole cells, aligned to multiples of the cell size, that covers the box.
[[nodiscard]] Grid grid_over(Box box, Metres cell);

/// Values on a grid, row by row; `known[i] == 0` marks a cell without a value.
struct Raster {
    Grid grid;
    std::vector<float> values;
    std::vector<std::uint8_t> known;

    [[nodiscard]] std::optional<float> at(PlanePoint p) const;
};

}  // namespace roostward::core
