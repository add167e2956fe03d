#include "roostward/report/lettered_squares.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace roostward::report {

namespace {

/// The ground that is drawn, and how far round it.
struct Ground {
    std::vector<geo::Shape> shapes;
    core::Metres round;
};

Ground ground_of(const ParkMap& park) {
    Ground ground;
    if (!park.allowed_area.empty()) {
        ground.shapes.push_back({{}, {}, park.allowed_area});
    } else if (!park.watches.empty()) {
        ground.shapes.push_back({park.watches, {}, {}});
        ground.round = watch_reach;
    } else {
        geo::Shape stems;
        for (const TaggedTree& tree : park.trees)
            stems.points.push_back(tree.stem);
        if (!stems.empty()) ground.shapes.push_back({{}, {}, geo::widened_hull(stems.points, square_side)});
    }
    return ground;
}

std::optional<core::Box> box_of(const Ground& ground) {
    std::vector<core::PlanePoint> points;
    for (const geo::Shape& shape : ground.shapes) {
        points.insert(points.end(), shape.points.begin(), shape.points.end());
        for (const geo::Polygon& polygon : shape.polygons)
            points.insert(points.end(), polygon.outer.begin(), polygon.outer.end());
    }
    const std::optional<core::Box> box = geo::box_of(points);
    return box ? std::optional(core::widened(*box, ground.round)) : std::nullopt;
}

/// The cells that the ground touches, the southernmost row first.
std::vector<core::Cell> cells_on(const Ground& ground, const core::Grid& grid) {
    const geo::NearestShape nearest(ground.shapes);
    const core::Metres half_diagonal(square_side.value() / std::numbers::sqrt2);
    std::vector<core::Cell> cells;
    for (std::size_t up = 0; up < grid.rows; ++up)
        for (std::size_t column = 0; column < grid.columns; ++column) {
            const core::Cell cell{grid.rows - 1 - up, column};
            if (nearest.nearest_within(grid.centre(cell), ground.round + half_diagonal))
                cells.push_back(cell);
        }
    return cells;
}

}  // namespace

std::string column_letters(std::size_t column) {
    std::string letters;
    for (std::size_t rest = column + 1; rest > 0; rest = (rest - 1) / 26)
        letters.insert(letters.begin(), static_cast<char>('A' + (rest - 1) % 26));
    return letters;
}

std::vector<Square> lettered_squares(const ParkMap& park) {
    constexpr std::size_t most_cells_looked_at = 1'000'000;
    const Ground ground = ground_of(park);
    const std::optional<core::Box> box = box_of(ground);
    if (!box) return {};
    const double across = box->north_east.easting - box->south_west.easting;
    const double up = box->north_east.northing - box->south_west.northing;
    if (across * up > static_cast<double>(most_cells_looked_at) * square_side.value() * square_side.value())
        return {};
    const core::Grid grid = core::grid_over(*box, square_side);
    const std::vector<core::Cell> cells = cells_on(ground, grid);
    if (cells.size() > most_squares || cells.empty()) return {};
    const std::size_t west = std::ranges::min(cells, {}, &core::Cell::column).column;
    const std::size_t south = cells.front().row;
    std::vector<Square> squares;
    for (const core::Cell& cell : cells) {
        const core::PlanePoint middle = grid.centre(cell);
        const double half = square_side.value() / 2.0;
        Square square{{},
                      cell.column - west,
                      south - cell.row,
                      {{middle.easting - half, middle.northing - half},
                       {middle.easting + half, middle.northing + half}}};
        square.name = column_letters(square.column) + std::to_string(square.row + 1);
        squares.push_back(std::move(square));
    }
    return squares;
}

geo::Layer squares_layer(const std::vector<Square>& squares, const geo::Crs& plane) {
    geo::Layer layer{"squares",      geo::GeometryKind::polygons,
                     plane,          {{"square", geo::ColumnKind::text}},
                     squares.size(), {}};
    layer.feature = [&squares](std::size_t i) {
        const core::Box& box = squares[i].box;
        const geo::Line ring{box.south_west,
                             {box.north_east.easting, box.south_west.northing},
                             box.north_east,
                             {box.south_west.easting, box.north_east.northing},
                             box.south_west};
        return geo::Feature{std::vector<geo::Polygon>{{ring, {}}}, {squares[i].name}};
    };
    return layer;
}

}  // namespace roostward::report
