#include "roostward/canopy/canopy.hpp"

#include <algorithm>
#include <cmath>

namespace roostward::canopy {

namespace {

/// Sets of provisional labels that turned out to be one piece of ground; the smallest label stands for its
/// set.
class Pieces {
 public:
    std::uint32_t add() {
        parents_.push_back(static_cast<std::uint32_t>(parents_.size()));
        return parents_.back();
    }

    std::uint32_t root(std::uint32_t label) {
        while (parents_[label] != label) {
            parents_[label] = parents_[parents_[label]];
            label = parents_[label];
        }
        return label;
    }

    std::uint32_t join(std::uint32_t a, std::uint32_t b) {
        const auto [low, high] = std::minmax({root(a), root(b)});
        parents_[high] = low;
        return low;
    }

    [[nodiscard]] std::size_t size() const { return parents_.size(); }

 private:
    std::vector<std::uint32_t> parents_{0};  // label 0 is no ground at all
};

/// Heights are stored in single precision, so the threshold is too: 2.1 m counts as no higher than 2.1 m.
bool is_open(const core::Raster& canopy_height, std::size_t cell, core::Metres height) {
    return canopy_height.known[cell] != 0 && canopy_height.values[cell] <= static_cast<float>(height.value());
}

bool is_canopy(const core::Raster& canopy_height, std::size_t cell, core::Metres height) {
    return canopy_height.known[cell] != 0 && canopy_height.values[cell] > static_cast<float>(height.value());
}

/// First pass: every open cell takes the label of its neighbour to the north or west, or a new one.
Pieces label_pieces(const core::Raster& canopy_height, core::Metres height,
                    std::vector<std::uint32_t>& label) {
    const core::Grid& grid = canopy_height.grid;
    Pieces pieces;
    for (std::size_t row = 0; row < grid.rows; ++row) {
        for (std::size_t column = 0; column < grid.columns; ++column) {
            const std::size_t cell = grid.index({row, column});
            if (!is_open(canopy_height, cell, height)) continue;
            const std::uint32_t north = row > 0 ? label[cell - grid.columns] : 0;
            const std::uint32_t west = column > 0 ? label[cell - 1] : 0;
            if (north != 0 && west != 0)
                label[cell] = pieces.join(north, west);
            else
                label[cell] = north != 0 ? north : west != 0 ? west : pieces.add();
        }
    }
    return pieces;
}

/// The fewest cells that make up the area, whatever the last bits of the cell size.
std::size_t cells_of(core::SquareMetres area, core::Metres cell) {
    return static_cast<std::size_t>(
        std::max(1.0, std::ceil(area.value() / (cell.value() * cell.value()) - 1e-9)));
}

/// The nearest canopy in one row of cells, squared, where it is nearer than `nearest`.
double nearest_in_row(const core::Raster& canopy_height, core::Metres gap_height, core::PlanePoint stem,
                      core::Cell home, std::size_t row, double nearest) {
    const core::Grid& grid = canopy_height.grid;
    const double aside = grid.centre({row, home.column}).northing - stem.northing;
    if (aside * aside >= nearest) return nearest;
    const auto steps = static_cast<std::size_t>(std::sqrt(nearest - aside * aside) / grid.cell.value()) + 1;
    const std::size_t last = std::min(home.column + steps, grid.columns - 1);
    for (std::size_t column = home.column - std::min(steps, home.column); column <= last; ++column)
        if (is_canopy(canopy_height, grid.index({row, column}), gap_height))
            nearest = std::min(nearest, core::squared_distance(stem, grid.centre({row, column})));
    return nearest;
}

/// Row by row outward from the stem's own, until the rows lie farther off than what was found.
core::Metres to_canopy(const core::Raster& canopy_height, core::Metres gap_height, core::PlanePoint stem,
                       core::Cell home, core::Metres reach) {
    double nearest = reach.value() * reach.value();
    const auto steps = static_cast<std::size_t>(reach / canopy_height.grid.cell) + 1;
    for (std::size_t step = 0; step <= steps; ++step) {
        if (step <= home.row)
            nearest = nearest_in_row(canopy_height, gap_height, stem, home, home.row - step, nearest);
        if (step > 0 && home.row + step < canopy_height.grid.rows)
            nearest = nearest_in_row(canopy_height, gap_height, stem, home, home.row + step, nearest);
    }
    return nearest < reach.value() * reach.value() ? core::Metres(std::sqrt(nearest)) : reach;
}

}  // namespace

GapMap find_gaps(const core::Raster& canopy_height, const GapSettings& settings) {
    GapMap gaps{canopy_height.grid, std::vector<std::uint32_t>(canopy_height.grid.size(), 0), {}};
    Pieces pieces = label_pieces(canopy_height, settings.height, gaps.label);

    std::vector<std::size_t> cells(pieces.size(), 0);
    for (std::uint32_t& label : gaps.label) {
        label = pieces.root(label);
        ++cells[label];
    }

    const core::Metres cell = gaps.grid.cell;
    const std::size_t enough = cells_of(settings.area, cell);
    std::vector<std::uint32_t> number(pieces.size(), 0);
    for (std::uint32_t piece = 1; piece < pieces.size(); ++piece) {
        if (cells[piece] < enough) continue;
        gaps.area.emplace_back(static_cast<double>(cells[piece]) * cell.value() * cell.value());
        number[piece] = static_cast<std::uint32_t>(gaps.area.size());
    }
    for (std::uint32_t& label : gaps.label)
        label = number[label];
    return gaps;
}

std::optional<GapAt> gap_at(const GapMap& gaps, const core::Raster& canopy_height, core::Metres gap_height,
                            core::PlanePoint stem, core::Metres reach) {
    const core::Grid& grid = gaps.grid;
    const std::optional<core::Cell> home = grid.cell_of(stem);
    if (!home) return std::nullopt;
    const std::uint32_t label = gaps.label[grid.index(*home)];
    if (label == 0) return std::nullopt;

    return GapAt{gaps.area[label - 1], to_canopy(canopy_height, gap_height, stem, *home, reach), reach};
}

}  // namespace roostward::canopy
