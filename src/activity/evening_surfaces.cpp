#include "roostward/activity/evening_surfaces.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <span>

#include "roostward/activity/evening_watch.hpp"
#include "roostward/activity/flight_density.hpp"
#include "roostward/geo/shape.hpp"

namespace roostward::activity {

namespace {

core::Grid grid_of_at_most(std::size_t most_cells, const core::Box& ground, core::Metres smallest) {
    core::Metres cell = smallest;
    core::Grid grid = core::grid_over(ground, cell);
    while (grid.size() > most_cells) {
        cell = cell *
               std::max(1.01, std::sqrt(static_cast<double>(grid.size()) / static_cast<double>(most_cells)));
        grid = core::grid_over(ground, cell);
    }
    return grid;
}

std::vector<core::PlanePoint> centres_of(const core::Grid& grid) {
    std::vector<core::PlanePoint> centres;
    centres.reserve(grid.size());
    for (std::size_t row = 0; row < grid.rows; ++row)
        for (std::size_t column = 0; column < grid.columns; ++column)
            centres.push_back(grid.centre({row, column}));
    return centres;
}

}  // namespace

core::Box known_box(const core::Raster& raster) {
    std::vector<core::PlanePoint> corners;
    const double half = 0.5 * raster.grid.cell.value();
    for (std::size_t row = 0; row < raster.grid.rows; ++row) {
        const auto known = std::span(raster.known).subspan(row * raster.grid.columns, raster.grid.columns);
        const auto first = std::ranges::find_if(known, [](std::uint8_t k) { return k != 0; });
        if (first == known.end()) continue;
        std::size_t last = known.size() - 1;
        while (known[last] == 0)
            --last;
        const auto west = raster.grid.centre({row, static_cast<std::size_t>(first - known.begin())});
        const auto east = raster.grid.centre({row, last});
        corners.push_back({west.easting - half, west.northing - half});
        corners.push_back({east.easting + half, east.northing + half});
    }
    return geo::box_of(corners).value_or(raster.grid.box());
}

std::vector<core::Raster> evening_surfaces(const survey::Survey& survey, const Bandwidth& bandwidth,
                                           const Settings& settings, const core::Box& ground,
                                           std::size_t most_cells, core::Threads threads) {
    constexpr double per_hectare = 1e4;
    const core::Grid grid = grid_of_at_most(most_cells, ground, settings.cell);
    Bandwidth spread = bandwidth;
    spread.h = std::max(bandwidth.h, grid.cell);
    const FlightDensity density(survey, spread, settings);
    const EveningTable table = density.at(centres_of(grid), threads);
    std::vector<core::Raster> surfaces(table.evenings, {grid, std::vector<float>(grid.size(), 0.0F),
                                                        std::vector<std::uint8_t>(grid.size(), 0)});
    for (std::size_t cell = 0; cell < table.rows; ++cell)
        for (std::size_t evening = 0; evening < table.evenings; ++evening) {
            const std::size_t at = table.at(cell, evening);
            if (table.watched[at] < enough_on_an_evening(settings.min_watch).value()) continue;
            surfaces[evening].known[cell] = 1;
            surfaces[evening].values[cell] = static_cast<float>(
                per_hectare * FlightDensity::rate(table.flown[at], core::Hours(table.smoothed[at]),
                                                  density.mean_rate(), bandwidth.shrink));
        }
    return surfaces;
}

}  // namespace roostward::activity
