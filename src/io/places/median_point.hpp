#pragma once

#include <algorithm>
#include <cmath>
#include <optional>
#include <span>
#include <vector>

#include "roostward/core/point.hpp"

namespace roostward::io {

/// The median of each coordinate, which a few strays do not move. Points that are not finite do not count.
[[nodiscard]] inline std::optional<core::PlanePoint> median_point(std::span<const core::PlanePoint> points) {
    std::vector<double> x, y;
    x.reserve(points.size());
    y.reserve(points.size());
    for (const core::PlanePoint& p : points) {
        if (!std::isfinite(p.easting) || !std::isfinite(p.northing)) continue;
        x.push_back(p.easting);
        y.push_back(p.northing);
    }
    if (x.empty()) return std::nullopt;
    const auto middle = static_cast<std::ptrdiff_t>(x.size() / 2);
    std::nth_element(x.begin(), x.begin() + middle, x.end());
    std::nth_element(y.begin(), y.begin() + middle, y.end());
    return core::PlanePoint{x[x.size() / 2], y[y.size() / 2]};
}

}  // namespace roostward::io
