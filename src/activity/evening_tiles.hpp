#pragma once

#include <cstdint>
#include <vector>

#include "evening_model.hpp"

namespace roostward::activity {

/// Cells along a tile's side.
inline constexpr std::size_t tile_side = 96;

/// A square of ground with everything that is felt on it.
struct Tile {
    core::Box box;
    std::vector<std::uint32_t> stretches, spots;  ///< ascending, and so by evening
    [[nodiscard]] double cell() const {
        return (box.north_east.easting - box.south_west.easting) / static_cast<double>(tile_side);
    }
    /// The expected number is summed over blocks of two by two cells.
    [[nodiscard]] double block() const { return 2.0 * cell(); }
};

/// The tiles that hold all stretches and all watched ground. Where flights are felt cells are at most h/2.5
/// and a quarter of the shortest range; elsewhere the tiles are as large as the spots allow.
[[nodiscard]] std::vector<Tile> tiles_of(const EveningModel& model, double h);

}  // namespace roostward::activity
