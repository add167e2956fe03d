#pragma once

#include <cmath>
#include <limits>

#include "roostward/core/grid.hpp"

namespace roostward::core {

/// A cell that a ray crosses; where it enters and leaves it, metres from the ray's start.
struct Crossing {
    std::size_t cell = 0;
    double enter = 0.0, leave = 0.0;
};

/// Visits the cells along a straight ray of `reach` metres, nearest first, until `visit(crossing)` says false
/// (Amanatides & Woo 1987, Eurographics '87). Returns how far it came: less than `reach` where the grid ends
/// or the visitor had enough; 0 where `from` is outside.
template <class Visit>
double walk(const Grid& grid, PlanePoint from, Degrees grid_bearing, Metres reach, Visit visit) {
    constexpr double never = std::numeric_limits<double>::infinity();
    const auto start = grid.cell_of(from);
    if (!start) return 0.0;
    const PlanePoint ahead = moved({0.0, 0.0}, grid_bearing, Metres(1.0));
    const PlanePoint centre = grid.centre(*start);
    const double side = grid.cell.value();
    struct Axis {
        double next, step;  ///< metres to the next edge, and from edge to edge
        std::ptrdiff_t turn;
    };
    const auto axis = [side](double speed, double past_centre) -> Axis {
        if (speed == 0.0) return {never, never, 0};
        const double to_edge = 0.5 * side - std::copysign(past_centre, past_centre * speed);
        return {to_edge / std::fabs(speed), side / std::fabs(speed), speed > 0.0 ? 1 : -1};
    };
    Axis across = axis(ahead.easting, from.easting - centre.easting);
    Axis down = axis(-ahead.northing, centre.northing - from.northing);
    auto row = static_cast<std::ptrdiff_t>(start->row), column = static_cast<std::ptrdiff_t>(start->column);
    const auto rows = static_cast<std::ptrdiff_t>(grid.rows);
    const auto columns = static_cast<std::ptrdiff_t>(grid.columns);
    double at = 0.0;
    while (row >= 0 && row < rows && column >= 0 && column < columns) {
        const double leave = std::fmin(across.next, down.next);
        if (!visit(Crossing{static_cast<std::size_t>(row * columns + column), at, leave})) return at;
        if (leave >= reach.value()) return reach.value();
        at = leave;
        const bool sideways = across.next <= down.next;
        (sideways ? column : row) += sideways ? across.turn : down.turn;
        Axis& crossed = sideways ? across : down;
        crossed.next += crossed.step;
    }
    return at;
}

}  // namespace roostward::core
