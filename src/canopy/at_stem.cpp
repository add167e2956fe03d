#include "roostward/canopy/at_stem.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>

#include "roostward/core/ray.hpp"
#include "roostward/core/vector_clones.hpp"

namespace roostward::canopy {

namespace {

constexpr double most_unknown = 0.1;  ///< share of cells, so that cover is never off by more
constexpr double edge = 1e-9;  ///< of a cell: a middle just at the radius counts, whatever the last bits

core::Metres to_millimetre(float height) {
    return core::Metres(std::round(static_cast<double>(height) * 1000.0) / 1000.0);
}

/// Calls `use(row, first, end)` for each row of cells whose middle lies within the radius; first and end are
/// columns. Returns how many cells that would be if the grid had no end.
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
        use(static_cast<std::size_t>(r), static_cast<std::size_t>(first), static_cast<std::size_t>(last) + 1);
    }
    return static_cast<std::size_t>(cells);
}

constexpr std::size_t crown_rays = 16;

/// A step of 1 m along each ray that looks for a crown's edge.
const std::array<core::PlanePoint, crown_rays>& crown_steps() {
    static const std::array<core::PlanePoint, crown_rays> all = [] {
        std::array<core::PlanePoint, crown_rays> made;
        for (std::size_t ray = 0; ray < crown_rays; ++ray) {
            const core::Degrees bearing(360.0 * static_cast<double>(ray) / static_cast<double>(crown_rays));
            made[ray] = core::moved({0.0, 0.0}, bearing, core::Metres(1.0));
        }
        return made;
    }();
    return all;
}

constexpr std::size_t word_bits = 64;

/// Bits set from `first` up to before `end`; there is at least one. Newer processors count a word at once.
ROOSTWARD_VECTOR_CLONES
std::size_t count_bits(const std::uint64_t* row, std::size_t first, std::size_t end) {
    constexpr std::uint64_t all = ~std::uint64_t{0};
    const std::size_t from = first / word_bits, to = (end - 1) / word_bits;
    const std::uint64_t head = all << first % word_bits;
    const std::uint64_t tail = all >> (word_bits - 1 - (end - 1) % word_bits);
    if (from == to) return static_cast<std::size_t>(std::popcount(row[from] & head & tail));
    int bits = std::popcount(row[from] & head) + std::popcount(row[to] & tail);
    for (std::size_t word = from + 1; word < to; ++word)
        bits += std::popcount(row[word]);
    return static_cast<std::size_t>(bits);
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
    const std::size_t cells = over_disc(canopy_height.grid, stem, crown_radius,
                                        [&](std::size_t row, std::size_t first, std::size_t end) {
                                            for (std::size_t column = first; column < end; ++column) {
                                                const std::size_t i = canopy_height.grid.index({row, column});
                                                if (canopy_height.known[i] == 0) continue;
                                                ++known;
                                                top = std::max(top, canopy_height.values[i]);
                                            }
                                        });
    return known == cells ? std::optional(to_millimetre(top)) : std::nullopt;
}

std::optional<core::Metres> crown_edge(const core::Raster& canopy_height, core::PlanePoint stem) {
    constexpr std::size_t most_lost = 4;
    constexpr double farthest = 15.0;
    const std::optional<float> home = canopy_height.at(stem);
    if (!home || static_cast<double>(*home) < cover_height.value()) return std::nullopt;
    const float edge_height = 0.5F * *home;
    std::array<double, crown_rays> reach{};
    std::ptrdiff_t rays = 0;
    for (const core::PlanePoint step : crown_steps()) {
        core::Ray at(canopy_height.grid, stem, step);
        const auto seen = [&] { return at.on_grid() && canopy_height.known[at.index()] != 0; };
        while (at.entered() < farthest && seen() && canopy_height.values[at.index()] >= edge_height)
            at.step();
        if (at.entered() >= farthest || seen())
            reach[static_cast<std::size_t>(rays++)] = std::min(at.entered(), farthest);
    }
    if (static_cast<std::size_t>(rays) + most_lost < crown_rays) return std::nullopt;
    auto* const middle = reach.begin() + rays / 2;
    std::nth_element(reach.begin(), middle, reach.begin() + rays);
    return *middle < farthest ? std::optional(to_millimetre(static_cast<float>(*middle))) : std::nullopt;
}

CoverMap::CoverMap(const core::Raster& canopy_height, core::Threads threads)
    : grid_(canopy_height.grid),
      words_((grid_.columns + word_bits - 1) / word_bits),
      known_(grid_.rows * words_, 0),
      covered_(known_.size(), 0) {
    core::parallel_for(grid_.rows, 64, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t row = begin; row < end; ++row)
            mark_row(canopy_height, row);
    });
}

void CoverMap::mark_row(const core::Raster& canopy_height, std::size_t row) {
    constexpr auto high_enough = static_cast<float>(cover_height.value());
    for (std::size_t column = 0; column < grid_.columns; ++column) {
        const std::size_t cell = grid_.index({row, column}), word = row * words_ + column / word_bits;
        const std::uint64_t known = canopy_height.known[cell] != 0 ? 1 : 0;
        const std::uint64_t high = canopy_height.values[cell] >= high_enough ? 1 : 0;
        known_[word] |= known << column % word_bits;
        covered_[word] |= (known & high) << column % word_bits;
    }
}

std::optional<double> CoverMap::about(core::PlanePoint stem) const {
    std::size_t known = 0, covered = 0;
    const std::size_t cells =
        over_disc(grid_, stem, cover_radius, [&](std::size_t row, std::size_t first, std::size_t end) {
            known += count_bits(&known_[row * words_], first, end);
            covered += count_bits(&covered_[row * words_], first, end);
        });
    const auto unknown = static_cast<double>(cells - known);
    if (known == 0 || unknown > most_unknown * static_cast<double>(cells)) return std::nullopt;
    return static_cast<double>(covered) / static_cast<double>(known);
}

}  // namespace roostward::canopy
