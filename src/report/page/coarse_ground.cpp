#include "coarse_ground.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "roostward/canopy/canopy.hpp"

namespace roostward::report {

namespace {

std::size_t blocks(std::size_t cells, std::size_t side) {
    return (cells + side - 1) / side;
}

/// Mean of the known cells in a block; empty where less than half of it is known.
std::optional<double> mean_in(const core::Raster& fine, core::Cell block, std::size_t side) {
    const std::size_t last_row = std::min((block.row + 1) * side, fine.grid.rows);
    const std::size_t last_column = std::min((block.column + 1) * side, fine.grid.columns);
    double sum = 0.0;
    std::size_t known = 0, all = 0;
    for (std::size_t row = block.row * side; row < last_row; ++row)
        for (std::size_t column = block.column * side; column < last_column; ++column) {
            const std::size_t i = fine.grid.index({row, column});
            ++all;
            if (fine.known[i] == 0) continue;
            ++known;
            sum += static_cast<double>(fine.values[i]);
        }
    if (known == 0 || 2 * known < all) return std::nullopt;
    return sum / static_cast<double>(known);
}

}  // namespace

CoarseGround coarse_ground(const plan::Plan& plan, std::size_t most_cells) {
    const core::Raster& fine = plan.surfaces.flight_density;
    std::size_t side = 1;
    while (blocks(fine.grid.rows, side) * blocks(fine.grid.columns, side) > most_cells)
        ++side;
    CoarseGround ground;
    ground.grid = {fine.grid.north_west, fine.grid.cell * static_cast<double>(side),
                   blocks(fine.grid.rows, side), blocks(fine.grid.columns, side)};
    std::vector<std::optional<double>> means;
    means.reserve(ground.grid.size());
    for (std::size_t row = 0; row < ground.grid.rows; ++row)
        for (std::size_t column = 0; column < ground.grid.columns; ++column) {
            means.push_back(mean_in(fine, {row, column}, side));
            ground.most = std::max(ground.most, means.back().value_or(0.0));
        }
    ground.flight.reserve(means.size());
    for (const auto& mean : means) {
        const double share = mean && ground.most > 0.0 ? std::sqrt(*mean / ground.most) : 0.0;
        ground.flight.push_back(mean ? static_cast<std::uint8_t>(1 + std::lround(254.0 * share))
                                     : std::uint8_t{0});
    }
    return ground;
}

std::vector<std::uint8_t> gap_bits(const plan::Plan& plan, const core::Grid& grid) {
    const auto& canopy = plan.surroundings.canopy_height;
    if (!canopy) return {};
    const canopy::GapMap gaps = canopy::find_gaps(*canopy, plan.settings.suitability.gaps);
    std::vector<std::uint8_t> bits((grid.size() + 7) / 8);
    for (std::size_t row = 0; row < grid.rows; ++row)
        for (std::size_t column = 0; column < grid.columns; ++column) {
            const auto cell = gaps.grid.cell_of(grid.centre({row, column}));
            if (!cell || gaps.label[gaps.grid.index(*cell)] == 0) continue;
            const std::size_t i = grid.index({row, column});
            bits[i / 8] = static_cast<std::uint8_t>(bits[i / 8] | 128U >> i % 8);
        }
    return bits;
}

}  // namespace roostward::report
