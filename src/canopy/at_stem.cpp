#include "roostward/canopy/at_stem.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace roostward::canopy {

namespace {

constexpr double most_unknown = 0.1;  ///< share of cells, so that cover is never off by more
constexpr double edge = 1e-9;  ///< of a cell: a middle just at the radius counts, whatever the last bits

core::Metres to_millimetre(float height) {
    return core::Metres(std::round(static_cast<double>(height) * 1000.0) / 1000.0);
}

/// Calls `use(first, end)` with cell indices for each row of the cells whose middle lies within the radius.
/// Returns how many cells that would be if the grid had no end.
template <class Use>
std::size_t over_disc(const core::Grid& grid, core::PlanePoint middle, core::Metres radius, const Use& use) {
    const double reach = radius / grid.cell + edge;
    const double column = (middle.easting - grid.north_west.easting) / grid.cell.value() - 0.5;
    const double row = (grid.north_west.northing - middle.northing) / grid.cell.value() - 0.5;
    const auto last_row = static_cast<long>(std::floor(row + reach));
    const double last_column = static_cast<double>(grid.columns) - 1.0;
    double cells = 0.0;
    for (long r = static_cast<long>(std::ceil(row - reach)); r <= last_row; ++r) {
        const double away = static_cast<double>(r) - row;
        const double half = std::sqrt(std::max(0.0, reach * reach - away * away));
        const double from = std::ceil(column - half), to = std::floor(column + half);
        cells += std::max(0.0, to - from + 1.0);
        const double first = std::max(from, 0.0), last = std::min(to, last_column);
        if (r < 0 || r >= static_cast<long>(grid.rows) || first > last) continue;
        const std::size_t start = static_cast<std::size_t>(r) * grid.columns;
        use(start + static_cast<std::size_t>(first), start + static_cast<std::size_t>(last) + 1);
    }
    return static_cast<std::size_t>(cells);
}

}  // namespace

std::optional<core::Metres> height_at(const core::Raster& canopy_height, core::PlanePoint stem) {
    const std::optional<float> height = canopy_height.at(stem);
    return height ? std::optional(to_millimetre(*height)) : std::nullopt;
}

std::optional<core::Metres> crown_top(const core::Raster& canopy_height, core::PlanePoint stem,
                                      core::Metres crown_radius) {
    const std::optional<float> home = canopy_height.at(stem);
    if (!home) return std::nullopt;
    float top = *home;
    std::size_t known = 0;
    const std::size_t cells =
        over_disc(canopy_height.grid, stem, crown_radius, [&](std::size_t begin, std::size_t end) {
            for (std::size_t i = begin; i < end; ++i) {
                if (canopy_height.known[i] == 0) continue;
                ++known;
                top = std::max(top, canopy_height.values[i]);
            }
        });
    return known == cells ? std::optional(to_millimetre(top)) : std::nullopt;
}

std::optional<double> cover_about(const core::Raster& canopy_height, core::PlanePoint stem) {
    constexpr auto high_enough = static_cast<float>(cover_height.value());
    std::size_t known = 0, covered = 0;
    const std::size_t cells =
        over_disc(canopy_height.grid, stem, cover_radius, [&](std::size_t begin, std::size_t end) {
            for (std::size_t i = begin; i < end; ++i) {
                const bool is_known = canopy_height.known[i] != 0;
                known += is_known ? 1 : 0;
                covered += is_known && canopy_height.values[i] >= high_enough ? 1 : 0;
            }
        });
    const auto of = static_cast<double>(cells);
    if (known == 0 || static_cast<double>(cells - known) > most_unknown * of) return std::nullopt;
    return static_cast<double>(covered) / static_cast<double>(known);
}

}  // namespace roostward::canopy
