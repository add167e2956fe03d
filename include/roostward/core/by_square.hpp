#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "roostward/core/point.hpp"

namespace roostward::core {

/// Indices of points, neighbours together: squares row by row from the south-west, and within a square as
/// they came. Work done in this order finds in the processor's cache what the last point used.
struct Squares {
    std::vector<std::size_t> order;
    std::vector<std::size_t> start;  ///< where in `order` each square that holds a point begins; then the end

    [[nodiscard]] std::size_t size() const { return start.size() - 1; }
    [[nodiscard]] std::span<const std::size_t> members(std::size_t square) const {
        return std::span(order).subspan(start[square], start[square + 1] - start[square]);
    }
};

/// Square (c, r) holds c <= easting / side < c + 1, and r likewise. O(n log n).
[[nodiscard]] Squares by_square(std::span<const PlanePoint> points, Metres side);

}  // namespace roostward::core
