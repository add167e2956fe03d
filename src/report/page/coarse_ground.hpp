#pragma once

#include <cstdint>
#include <vector>

#include "roostward/plan/plan.hpp"

namespace roostward::report {

/// Flight density for a picture: cells so wide that there are at most as many as asked for.
struct CoarseGround {
    core::Grid grid;
    /// 0: not watched; 1 to 255: the square root of the density's share of the largest, 1 for none.
    std::vector<std::uint8_t> flight;
    double most = 0.0;  ///< density at 255, metres per hectare and hour
};

/// A cell has the mean of what is known in it, and is not watched where less than half is known.
[[nodiscard]] CoarseGround coarse_ground(const plan::Plan& plan, std::size_t most_cells);

/// Cells of the grid whose middle lies in a canopy gap, 8 a byte, the first in the highest bit; empty where
/// there is no canopy model.
[[nodiscard]] std::vector<std::uint8_t> gap_bits(const plan::Plan& plan, const core::Grid& grid);

}  // namespace roostward::report
