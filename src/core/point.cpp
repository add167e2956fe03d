#include "roostward/core/point.hpp"

#include <cmath>
#include <numbers>

namespace roostward::core {

namespace {
constexpr double degrees_per_radian = 180.0 / std::numbers::pi;
}

Degrees normalised(Degrees bearing) {
    double turned = bearing.value();
    if (!(turned > -360.0 && turned < 360.0)) turned = std::fmod(turned, 360.0);
    const double positive = turned < 0.0 ? turned + 360.0 : turned;
    return Degrees(positive >= 360.0 ? 0.0 : positive);
}

Degrees grid_bearing(PlanePoint from, PlanePoint to) {
    return normalised(
        Degrees(std::atan2(to.easting - from.easting, to.northing - from.northing) * degrees_per_radian));
}

PlanePoint moved(PlanePoint from, Degrees grid_bearing, Metres away) {
    const double angle = grid_bearing.value() / degrees_per_radian;
    return {from.easting + away.value() * std::sin(angle), from.northing + away.value() * std::cos(angle)};
}

Degrees turn_between(Degrees a, Degrees b) {
    const double turn = normalised(b - a).value();
    return Degrees(turn > 180.0 ? 360.0 - turn : turn);
}

}  // namespace roostward::core
