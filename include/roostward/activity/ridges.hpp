#pragma once

#include <vector>

#include "roostward/core/grid.hpp"
#include "roostward/core/parallel.hpp"

namespace roostward::activity {

/// Values at cell centres in which ridges are sought, row by row. They must be smooth, as they
/// are after a kernel of two cells and more: then the differences are within 0.3 % of the derivatives.
struct RidgeField {
    core::Grid grid;
    std::vector<float> value;
    /// Strength that a ridge needs to go on at a cell; infinity where none is traced.
    std::vector<float> least;
};

/// A place where the slope across the direction of largest curvature vanishes.
struct RidgePoint {
    core::PlanePoint place;            ///< between cell centres
    double across_east, across_north;  ///< unit vector across the ridge
    double strength;                   ///< minus the second derivative across: value per m²
    std::size_t cell;                  ///< that it was found in
};

/// In order along the ridge, one place a cell.
using Ridge = std::vector<RidgePoint>;

/// Ridges after Steger 1998 (IEEE TPAMI 20, 113–125): in each cell the gradient and Hessian, here by central
/// differences of fourth order; a ridge point where the first derivative across the principal curvature
/// vanishes within the cell; neighbours linked along the ridge, two thresholds: a ridge has a point with
/// `start` times the least strength, and goes on while strength is at least the least. A ridge ends where it
/// meets one found before, sharing its point there. Strongest start first; the same for any number of
/// threads.
[[nodiscard]] std::vector<Ridge> find_ridges(const RidgeField& field, double start, core::Threads threads);

}  // namespace roostward::activity
