#include "roostward/core/by_square.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace roostward::core {

std::vector<std::size_t> by_square(std::span<const PlanePoint> points, Metres side) {
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
    std::vector<std::size_t> order;
    order.reserve(placed.size());
    for (const Placed& p : placed)
        order.push_back(p.point);
    return order;
}

}  // namespace roostward::core
