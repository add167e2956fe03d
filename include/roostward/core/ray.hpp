#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

#include "roostward/core/grid.hpp"

namespace roostward::core {

/// A straight ray over a grid, cell by cell, nearest first (Amanatides & Woo 1987, Eurographics '87).
/// Distances are metres from its start.
class Ray {
 public:
    /// `ahead` is a step of 1 m along the ray.
    Ray(const Grid& grid, PlanePoint from, PlanePoint ahead)
        : rows_(grid.rows),
          columns_(grid.columns),
          cell_(grid.cell_of(from).value_or(Cell{rows_, columns_})) {
        const PlanePoint centre = grid.centre(cell_);
        const double side = grid.cell.value();
        across_ = axis(side, ahead.easting, from.easting - centre.easting);
        down_ = axis(side, -ahead.northing, centre.northing - from.northing);
    }

    /// False from the start where the ray starts outside the grid.
    [[nodiscard]] bool on_grid() const { return cell_.row < rows_ && cell_.column < columns_; }
    [[nodiscard]] Cell cell() const { return cell_; }
    [[nodiscard]] std::size_t index() const { return cell_.row * columns_ + cell_.column; }
    /// Where it enters the cell; 0 for the first.
    [[nodiscard]] double entered() const { return entered_; }

    /// On to the next cell. Without a branch: which edge comes first cannot be foretold.
    void step() {
        const bool across = across_.next <= down_.next;
        entered_ = across ? across_.next : down_.next;
        cross(across_, cell_.column, across);
        cross(down_, cell_.row, !across);
    }

    /// On to the first cell outside the square block of cells that this one lies in: blocks are `side` cells
    /// wide, a power of two, counted from the grid's north-west corner.
    void leave_block(std::size_t side) {
        const Cell block{cell_.row / side, cell_.column / side};
        while (cell_.row / side == block.row && cell_.column / side == block.column)
            step();
    }

 private:
    struct Axis {
        double next, step;  ///< metres to the next edge, and from edge to edge
        std::size_t turn;   ///< one column or row on, or back by wrapping round
    };

    static Axis axis(double side, double speed, double past_centre) {
        constexpr double never = std::numeric_limits<double>::infinity();
        if (speed == 0.0) return {never, never, 0};
        const double to_edge = 0.5 * side - std::copysign(past_centre, past_centre * speed);
        return {to_edge / std::fabs(speed), side / std::fabs(speed),
                speed > 0.0 ? std::size_t{1} : std::numeric_limits<std::size_t>::max()};
    }

    static void cross(Axis& edge, std::size_t& row_or_column, bool crossed) {
        edge.next += crossed ? edge.step : 0.0;
        row_or_column += crossed ? edge.turn : 0;
    }

    std::size_t rows_, columns_;
    Cell cell_;
    double entered_ = 0.0;
    Axis across_{}, down_{};
};

}  // namespace roostward::core
