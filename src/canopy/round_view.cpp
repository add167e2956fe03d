#include "roostward/canopy/round_view.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "roostward/core/ray.hpp"

namespace roostward::canopy {

namespace {

constexpr float unknown = std::numeric_limits<float>::quiet_NaN();
constexpr double step = 360.0 / static_cast<double>(rays);

/// A step of 1 m along each ray.
const std::array<core::PlanePoint, rays>& steps() {
    static const std::array<core::PlanePoint, rays> all = [] {
        std::array<core::PlanePoint, rays> made;
        for (std::size_t ray = 0; ray < rays; ++ray)
            made[ray] = core::moved({0.0, 0.0}, bearing_of(ray), core::Metres(1.0));
        return made;
    }();
    return all;
}

/// What one ray has met so far.
struct Seen {
    bool in_own_crown = true;
    std::optional<double> first;  ///< metres to the first canopy above the entrance
    double steepest = 0.0;        ///< tangent of the horizon
    double came = 0.0;            ///< metres, until unknown ground or the end of the model
};

Seen look_along(const core::Raster& canopy_height, const Entrance& entrance, core::PlanePoint ahead) {
    Seen seen;
    const double half_cell = 0.5 * canopy_height.grid.cell.value();
    const auto meet = [&](const core::Crossing& at) {
        if (canopy_height.known[at.cell] == 0) return false;
        const double above = static_cast<double>(canopy_height.values[at.cell]) - entrance.height.value();
        if (above <= 0.0) {
            seen.in_own_crown = false;
            return true;
        }
        if (seen.in_own_crown && at.enter < entrance.crown_radius.value()) return true;
        seen.in_own_crown = false;
        if (!seen.first) seen.first = at.enter;
        seen.steepest = std::max(seen.steepest, above / std::max(at.enter, half_cell));
        return true;
    };
    seen.came = core::walk(canopy_height.grid, entrance.stem, ahead, horizon_looked, meet);
    return seen;
}

}  // namespace

core::Degrees bearing_of(std::size_t ray) {
    return core::Degrees(static_cast<double>(ray) * step);
}

RoundView look_round(const core::Raster& canopy_height, const Entrance& entrance) {
    RoundView view{};
    for (std::size_t ray = 0; ray < rays; ++ray) {
        const Seen seen = look_along(canopy_height, entrance, steps()[ray]);
        const double clear = std::min(seen.first.value_or(seen.came), clear_looked.value());
        const bool clear_known = seen.first || seen.came >= clear_looked.value();
        view.clear[ray] = clear_known ? static_cast<float>(clear) : unknown;
        view.horizon[ray] = seen.came >= horizon_looked.value()
                                ? static_cast<float>(std::atan(seen.steepest) * 180.0 / std::numbers::pi)
                                : unknown;
    }
    return view;
}

std::optional<core::Metres> clear_toward(const RoundView& view, core::Degrees grid_bearing,
                                         core::Degrees to_each_side) {
    float least = static_cast<float>(clear_looked.value());
    for (std::size_t ray = 0; ray < rays; ++ray) {
        if (core::turn_between(bearing_of(ray), grid_bearing) > to_each_side) continue;
        if (std::isnan(view.clear[ray])) return std::nullopt;
        least = std::min(least, view.clear[ray]);
    }
    return core::Metres(static_cast<double>(least));
}

}  // namespace roostward::canopy
