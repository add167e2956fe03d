#pragma once

#include <vector>

#include "roostward/core/grid.hpp"

namespace roostward::activity {

/// Means of a raster's known values over squares of cells, each in constant time (summed-area table).
class SquareMeans {
 public:
    explicit SquareMeans(const core::Raster& raster);

    /// Over the cells no more than `half` rows and columns away; 0 where none of them is known.
    [[nodiscard]] double about(core::Cell cell, std::size_t half) const;

 private:
    struct Sum {
        double value = 0.0, cells = 0.0;
    };
    std::size_t rows_, columns_;  ///< of the sums: one more than cells
    std::vector<Sum> sums_;       ///< over all cells north and west of a corner
};

}  // namespace roostward::activity
