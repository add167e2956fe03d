#include "walking.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <queue>
#include <utility>

namespace roostward::evenings {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double finest_cell = 5.0, most_cells = 20000.0;
constexpr core::Metres margin{100.0};
/// Steps from cell to cell are longer than a straight line, by 1.05 on the mean of all directions.
constexpr float off_paths = static_cast<float>(way_winds / 1.05);
/// Of a cell's side: what lies so near to its middle is in it. No line slips through between two cells.
constexpr double in_cell = 0.75;
constexpr std::size_t rows_a_piece = 8;

geo::NearestShape lines_and_areas(const std::vector<geo::Line>& lines,
                                  const std::vector<geo::Polygon>& polygons) {
    std::vector<geo::Shape> shapes;
    if (!lines.empty() || !polygons.empty()) shapes.push_back({{}, lines, polygons});
    return geo::NearestShape(shapes);
}

core::Grid grid_around(std::span<const Place> places) {
    std::vector<core::PlanePoint> points;
    for (const Place& place : places)
        points.push_back(place.position);
    const core::Box box = core::widened(geo::box_of(points).value(), margin);
    const double area = (box.north_east.easting - box.south_west.easting) *
                        (box.north_east.northing - box.south_west.northing);
    return core::grid_over(box, core::Metres(std::max(finest_cell, std::sqrt(area / most_cells))));
}

std::vector<float> slowness_of(const core::Grid& grid, const Ground& ground, core::Threads threads) {
    const geo::NearestShape water(ground.water.shapes), paths(lines_and_areas(ground.paths, {})),
        keep_out(lines_and_areas({}, ground.keep_out));
    const core::Metres near = grid.cell * in_cell;
    std::vector<float> slowness(grid.size());
    core::parallel_for(grid.rows, rows_a_piece, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t row = begin; row < end; ++row)
            for (std::size_t column = 0; column < grid.columns; ++column) {
                const core::PlanePoint at = grid.centre({row, column});
                const bool on_path = paths.nearest_within(at, near).has_value();
                const bool shut = keep_out.nearest_within(at, near).has_value() ||
                                  (!on_path && water.nearest_within(at, near).has_value());
                slowness[grid.index({row, column})] = shut ? 0.0F : on_path ? 1.0F : off_paths;
            }
    });
    return slowness;
}

/// Cells around one, with the length of the step in cells; fewer at the edge.
template <class Use>
void for_each_beside(const core::Grid& grid, std::size_t cell, const Use& use) {
    const std::size_t row = cell / grid.columns, column = cell % grid.columns;
    for (std::size_t r = row - (row > 0); r <= std::min(row + 1, grid.rows - 1); ++r)
        for (std::size_t c = column - (column > 0); c <= std::min(column + 1, grid.columns - 1); ++c) {
            if (r == row && c == column) continue;
            use(grid.index({r, c}), r == row || c == column ? 1.0 : std::sqrt(2.0));
        }
}

/// The shortest ways from a cell to all others, as far as `farthest` (Dijkstra 1959, Numerische Mathematik
/// 1).
std::vector<double> spread_from(std::size_t start, const core::Grid& grid, const std::vector<float>& slowness,
                                core::Metres farthest) {
    std::vector<double> way(grid.size(), infinite);
    using Reached = std::pair<double, std::size_t>;
    std::priority_queue<Reached, std::vector<Reached>, std::greater<>> reached;
    way[start] = 0.0;
    reached.emplace(0.0, start);
    while (!reached.empty()) {
        const auto [so_far, cell] = reached.top();
        reached.pop();
        if (so_far > way[cell]) continue;
        for_each_beside(grid, cell, [&](std::size_t next, double step) {
            if (slowness[next] == 0.0F) return;
            const double slow = 0.5 * (double{slowness[cell]} + double{slowness[next]});
            const double there = so_far + step * slow * grid.cell.value();
            if (there >= way[next] || there > farthest.value()) return;
            way[next] = there;
            reached.emplace(there, next);
        });
    }
    return way;
}

}  // namespace

Walking::Walking(const Ground& ground, std::span<const Place> places, core::Metres farthest,
                 core::Threads threads)
    : places_(places), farthest_(farthest) {
    if (ground.water.shapes.empty() && ground.keep_out.empty() && ground.paths.empty()) return;
    grid_ = grid_around(places);
    slowness_ = slowness_of(grid_, ground, threads);
    doors_.reserve(places.size());
    for (const Place& place : places)
        doors_.push_back(door_of(place.position, ground));
}

/// The nearest cell that people walk in and that is on the same bank.
std::optional<std::size_t> Walking::door_of(core::PlanePoint place, const Ground& ground) const {
    constexpr std::size_t around = 3;
    const std::optional<core::Cell> cell = grid_.cell_of(place);
    if (!cell) return std::nullopt;
    std::pair<double, std::optional<std::size_t>> nearest{infinite, std::nullopt};
    for (std::size_t r = cell->row - std::min(cell->row, around);
         r <= std::min(cell->row + around, grid_.rows - 1); ++r)
        for (std::size_t c = cell->column - std::min(cell->column, around);
             c <= std::min(cell->column + around, grid_.columns - 1); ++c) {
            const core::PlanePoint centre = grid_.centre({r, c});
            const double away = core::squared_distance(place, centre);
            if (slowness_[grid_.index({r, c})] == 0.0F || away >= nearest.first) continue;
            if (!geo::crossings({place, centre}, ground.water.shapes).empty()) continue;
            nearest = {away, grid_.index({r, c})};
        }
    return nearest.second;
}

std::vector<double> Walking::ways_from(std::size_t place) const {
    std::vector<double> ways(places_.size(), infinite);
    if (!doors_[place]) return ways;
    const std::vector<double> spread = spread_from(*doors_[place], grid_, slowness_, farthest_);
    for (std::size_t p = 0; p < places_.size(); ++p) {
        if (!doors_[p]) continue;
        // Two places in one cell are no step apart, and yet not at one spot.
        const double straight = core::distance(places_[place].position, places_[p].position).value();
        ways[p] = std::max(spread[*doors_[p]], straight);
    }
    return ways;
}

core::Metres Walking::way(std::size_t from, std::size_t to) const {
    if (doors_.empty()) {
        const core::Metres way = core::distance(places_[from].position, places_[to].position) * way_winds;
        return way <= farthest_ ? way : core::Metres(infinite);
    }
    const auto [known, fresh] = known_.try_emplace(from);
    if (fresh) known->second = ways_from(from);
    return core::Metres(known->second[to]);
}

Ways Walking::between(std::span<const std::size_t> places) const {
    Ways ways(places.size());
    for (std::size_t i = 0; i < places.size(); ++i)
        for (const std::size_t to : places)
            ways[i].push_back(way(places[i], to));
    return ways;
}

}  // namespace roostward::evenings
