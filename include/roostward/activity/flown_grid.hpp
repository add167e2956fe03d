#pragma once

#include <vector>

#include "roostward/activity/pieces.hpp"
#include "roostward/core/grid.hpp"
#include "roostward/core/parallel.hpp"

namespace roostward::activity {

/// Σ of the pieces' kernels at every cell centre, row by row from the north: metres flown and seen per m².
/// Within 3e-5 of the peak; the same bits for any number of threads. Kernels of 5 cells and more are binned
/// with cubic B-splines and filtered, O(pieces + cells · width); narrower ones are summed exactly, O(pieces ·
/// width²).
[[nodiscard]] std::vector<float> flown_on(const core::Grid& grid, const std::vector<Piece>& pieces,
                                          core::Threads threads);

}  // namespace roostward::activity
