#pragma once

#include <vector>

#include "roostward/activity/pieces.hpp"
#include "roostward/core/grid.hpp"
#include "roostward/core/parallel.hpp"

namespace roostward::activity {

/// Σ of the pieces' kernels at every cell centre, row by row from the north: metres flown and seen per m².
/// Within 3e-5 of the peak; the same bits for any number of threads. Kernels of two cells and more go by a
/// SmoothField for each width, O(pieces + cells); narrower ones and widths that few pieces have are summed
/// exactly, O(pieces · width²).
[[nodiscard]] std::vector<float> flown_on(const core::Grid& grid, const std::vector<Piece>& pieces,
                                          core::Threads threads);

}  // namespace roostward::activity
