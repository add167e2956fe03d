#include "roostward/core/by_square.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace roostward::core {

Squares by_square(std::span<const PlanePoint> points, Metres side) {
    struct Placed {
        double row, column;
        std::size_t point;
    };
    std::vector<Placed> placed;
    placed.reserve(points.size());
    for (const PlanePoint& p : points)
        placed.push_back(
            {std::floor(p.northing / side.value()), std::floor(p.easting / side.value()), placed.size()});
    std::ranges::sort(placed, {}, [](const Placed& p) { return std::tuple(p.row, p.column, p.point); });
    Squares squares;
    squares.order.reserve(placed.size());
    for (std::size_t i = 0; i < placed.size(); ++i) {
        const bool first =
            i == 0 || placed[i].row != placed[i - 1].row || placed[i].column != placed[i - 1].column;
        if (first) squares.start.push_back(i);
        squares.order.push_back(placed[i].point);
    }
    squares.start.push_back(placed.size());
    return squares;
}

}  // namespace roostward::core
