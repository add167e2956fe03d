#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

#include "roostward/core/grid.hpp"

namespace roostward::core {

/// A cell that a ray crosses; where it enters and leaves it, metres from the ray's start.
struct Crossing {
    std::size_t cell = 0;
    double enter = 0.0, leave = 0.0;
};

/// Visits the cells along a straight ray of `reach` metres, nearest first, until `visit(crossing)` says false
/// (Amanatides & Woo 1987, Eurographics '87). `ahead` is a step of 1 m along the ray. Returns how far it
/// came: less than `reach` where the grid ends or the visitor had enough; 0 where `from` is outside.
template <class Visit>
double walk(const Grid& grid, PlanePoint from, PlanePoint ahead, Metres reach, Visit visit) {
    constexpr double never = std::numeric_limits<double>::infinity();
    const auto start = grid.cell_of(from);
    if (!start) return 0.0;
    const PlanePoint centre = grid.centre(*start);
    const double side = grid.cell.value();
    struct Axis {
        double next, step;  ///< metres to the next edge, and from edge to edge
        std::size_t turn;   ///< one column or row on, or back by wrapping round
    };
    const auto axis = [side](double speed, double past_centre) -> Axis {
        if (speed == 0.0) return {never, never, 0};
        const double to_edge = 0.5 * side - std::copysign(past_centre, past_centre * speed);
        return {to_edge / std::fabs(speed), side / std::fabs(speed),
                speed > 0.0 ? std::size_t{1} : std::numeric_limits<std::size_t>::max()};
    };
    Axis across = axis(ahead.easting, from.easting - centre.easting);
    Axis down = axis(-ahead.northing, centre.northing - from.northing);
    Cell cell = *start;
    double at = 0.0;
    while (cell.row < grid.rows && cell.column < grid.columns) {
        const double leave = std::min(across.next, down.next);
        if (!visit(Crossing{grid.index(cell), at, leave})) return at;
        if (leave >= reach.value()) return reach.value();
        at = leave;
        if (across.next <= down.next) {
            cell.column += across.turn;
            across.next += across.step;
        } else {
            cell.row += down.turn;
            down.next += down.step;
        }
    }
    return at;
}

}  // namespace roostward::core
