#include "rasters/terrain_under.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "files/input_file.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::io {

namespace {

constexpr float lowest_land_m = -500.0F;  // the shore of the Dead Sea lies at -430 m
constexpr float highest_land_m = 9000.0F;

/// Columns and rows of the terrain, counted from its first corner.
struct Pixel {
    double column = 0.0;
    double row = 0.0;
};

/// Where the middles of a grid's cells lie in the terrain. Worked out for every 32nd row and column; between
/// them it is as good as straight, whatever the two systems: a millimetre in cells of 5 m.
class Places {
 public:
    Places(const core::Grid& grid, const OpenRaster& terrain, const geo::Crs& plane, core::Threads threads)
        : across_(grid.columns / stride + 2) {
        std::vector<core::PlanePoint> points;
        for (std::size_t row = 0; row <= grid.rows / stride + 1; ++row)
            for (std::size_t column = 0; column < across_; ++column)
                points.push_back(grid.centre({row * stride, column * stride}));
        if (!terrain.is_in(plane)) geo::Transform(plane, terrain.crs).apply(points, threads);
        const GeoTransform& t = terrain.transform;
        const double area = t[1] * t[5] - t[2] * t[4];
        for (const core::PlanePoint& p : points) {
            const double east = p.easting - t[0], north = p.northing - t[3];
            corners_.push_back({(t[5] * east - t[2] * north) / area, (t[1] * north - t[4] * east) / area});
        }
    }

    [[nodiscard]] Pixel of(core::Cell cell) const {
        const Pixel* north = &corners_[cell.row / stride * across_ + cell.column / stride];
        const Pixel* south = north + across_;
        const double right = static_cast<double>(cell.column % stride) / stride;
        const double down = static_cast<double>(cell.row % stride) / stride;
        const Pixel above = between(north[0], north[1], right);
        return between(above, between(south[0], south[1], right), down);
    }

    /// The cells of the terrain about all places; empty where it lies elsewhere.
    [[nodiscard]] Window window(const OpenRaster& terrain) const {
        constexpr double none = std::numeric_limits<double>::infinity();
        Pixel least{none, none}, most{-none, -none};
        for (const Pixel& corner : corners_) {
            least = {std::min(least.column, corner.column), std::min(least.row, corner.row)};
            most = {std::max(most.column, corner.column), std::max(most.row, corner.row)};
        }
        const auto cell = [](double at, int end) {
            return static_cast<int>(std::clamp(std::floor(at), 0.0, static_cast<double>(end)));
        };
        const int column = cell(least.column - 1.0, terrain.columns());
        const int row = cell(least.row - 1.0, terrain.rows());
        return {column, row, cell(most.column + 2.0, terrain.columns()) - column,
                cell(most.row + 2.0, terrain.rows()) - row};
    }

 private:
    static constexpr std::size_t stride = 32;

    static Pixel between(Pixel a, Pixel b, double share) {
        return {a.column + share * (b.column - a.column), a.row + share * (b.row - a.row)};
    }

    std::size_t across_;
    std::vector<Pixel> corners_;
};

/// Heights that no land has are no-data that the file does not tell.
void forget_what_is_no_land(Heights& heights) {
    for (std::size_t i = 0; i < heights.values.size(); ++i)
        if (heights.values[i] < lowest_land_m || heights.values[i] > highest_land_m) heights.known[i] = 0;
}

/// Not-a-number where the height is not known.
float height_at(Pixel at, const Heights& heights, const Window& window) {
    const auto cell = [&](double row, double column) -> std::optional<std::size_t> {
        if (!(row >= 0.0 && column >= 0.0 && row < window.rows && column < window.columns))
            return std::nullopt;
        const std::size_t i = static_cast<std::size_t>(row) * static_cast<std::size_t>(window.columns) +
                              static_cast<std::size_t>(column);
        return heights.known[i] != 0 ? std::optional(i) : std::nullopt;
    };
    const double row = at.row - window.row, column = at.column - window.column;
    if (!cell(std::floor(row), std::floor(column))) return std::numeric_limits<float>::quiet_NaN();
    const double top = std::floor(row - 0.5), left = std::floor(column - 0.5);
    double sum = 0.0, weights = 0.0;
    for (const double r : {top, top + 1.0}) {
        for (const double c : {left, left + 1.0}) {
            const double weight = (1.0 - std::abs(row - 0.5 - r)) * (1.0 - std::abs(column - 0.5 - c));
            const auto i = cell(r, c);
            if (!i || weight <= 0.0) continue;
            sum += weight * static_cast<double>(heights.values[*i]);
            weights += weight;
        }
    }
    return static_cast<float>(sum / weights);
}

}  // namespace

core::Raster terrain_under(const core::Grid& grid, const OpenRaster& terrain, const geo::Crs& plane,
                           core::Threads threads) {
    const Places places(grid, terrain, plane, threads);
    const Window window = places.window(terrain);
    if (window.columns <= 0 || window.rows <= 0)
        cannot_use(terrain.source, core::said("error.terrain_elsewhere"));
    Heights heights = heights_in(terrain, window, threads);
    forget_what_is_no_land(heights);
    core::Raster under{grid, std::vector<float>(grid.size()), std::vector<std::uint8_t>(grid.size())};
    core::parallel_for(grid.rows, 64, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t row = begin; row < end; ++row) {
            for (std::size_t column = 0; column < grid.columns; ++column) {
                const std::size_t i = grid.index({row, column});
                under.values[i] = height_at(places.of({row, column}), heights, window);
                under.known[i] = std::isnan(under.values[i]) ? 0 : 1;
            }
        }
    });
    return under;
}

}  // namespace roostward::io
