#include "roostward/core/grid.hpp"

#include <cmath>

namespace roostward::core {

Box widened(Box box, Metres by) {
    return {{box.south_west.easting - by.value(), box.south_west.northing - by.value()},
            {box.north_east.easting + by.value(), box.north_east.northing + by.value()}};
}

std::optional<Cell> Grid::cell_of(PlanePoint p) const {
    const double column = std::floor((p.easting - north_west.easting) / cell.value());
    const double row = std::floor((north_west.northing - p.northing) / cell.value());
    if (!(column >= 0.0 && row >= 0.0 && column < static_cast<double>(columns) &&
          row < static_cast<double>(rows)))
        return std::nullopt;
    return Cell{static_cast<std::size_t>(row), static_cast<std::size_t>(column)};
}

Box Grid::box() const {
    return {{north_west.easting, north_west.northing - static_cast<double>(rows) * cell.value()},
            {north_west.easting + static_cast<double>(columns) * cell.value(), north_west.northing}};
}

Grid grid_over(Box box, Metres cell) {
    const double size = cell.value();
    const double west = std::floor(box.south_west.easting / size);
    const double east = std::ceil(box.north_east.easting / size);
    const double south = std::floor(box.south_west.northing / size);
    const double north = std::ceil(box.north_east.northing / size);
    return {{west * size, north * size},
            cell,
            static_cast<std::size_t>(north - south),
            static_cast<std::size_t>(east - west)};
}

std::optional<float> Raster::at(PlanePoint p) const {
    const auto cell = grid.cell_of(p);
    if (!cell || known[grid.index(*cell)] == 0) return std::nullopt;
    return values[grid.index(*cell)];
}

}  // namespace roostward::core
