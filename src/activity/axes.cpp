#include "roostward/activity/axes.hpp"

#include <cmath>
#include <numbers>

namespace roostward::activity {

Axis mean_axis(std::span<const Heading> headings) {
    constexpr double per_degree = std::numbers::pi / 180.0;
    double cosines = 0.0, sines = 0.0, total = 0.0;
    for (const Heading& heading : headings) {
        const double doubled = 2.0 * heading.bearing.value() * per_degree;
        cosines += heading.weight * std::cos(doubled);
        sines += heading.weight * std::sin(doubled);
        total += heading.weight;
    }
    const double length = std::hypot(cosines, sines);
    if (!(length > 1e-12 * total)) return {};
    double bearing = 0.5 * std::atan2(sines, cosines) / per_degree;
    if (bearing < 0.0) bearing += 180.0;
    return {core::Degrees(bearing >= 180.0 ? 0.0 : bearing), length / total};
}

}  // namespace roostward::activity
