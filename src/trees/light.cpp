#include <algorithm>
#include <cmath>
#include <numbers>

#include "roostward/trees/neighbours.hpp"

namespace roostward::trees {

namespace {

constexpr core::Metres nearest{0.5};

/// Candela toward the sides, and below.
std::optional<double> intensity(const Lamp& lamp) {
    if (lamp.lux_at_10m) return 100.0 * lamp.lux_at_10m->value();
    if (lamp.lumens) return lamp.lumens->value() / (2.0 * std::numbers::pi);
    return std::nullopt;
}

}  // namespace

std::optional<Lux> light_from(const Lamp& lamp, core::Metres away, core::Metres face_height) {
    const auto candela = intensity(lamp);
    if (!candela) return std::nullopt;
    const core::Metres above = lamp.height.value_or(face_height) - face_height;
    const bool only_downward = !lamp.lux_at_10m;
    if (only_downward && above < core::Metres(0.0)) return Lux(0.0);
    const double a = std::max(away, nearest).value(), b = above.value();
    return Lux(*candela * a / std::pow(a * a + b * b, 1.5));
}

core::Metres reach_of(const Lamp& lamp, Lux least) {
    return core::Metres(std::sqrt(intensity(lamp).value_or(0.0) / least.value()));
}

}  // namespace roostward::trees
