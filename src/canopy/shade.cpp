#include "roostward/canopy/shade.hpp"

#include <algorithm>

#include "roostward/core/ray.hpp"

namespace roostward::canopy {

namespace {

constexpr double crowns_begin = 1.0 / 3.0;

}  // namespace

core::Metres crowns_between(const core::Raster& canopy_height, const Spot& from, const Spot& to,
                            core::Metres but) {
    const double level = core::distance(from.place, to.place).value();
    const double end = level - but.value();
    if (end <= 0.0) return core::Metres(0.0);
    const core::PlanePoint ahead{(to.place.easting - from.place.easting) / level,
                                 (to.place.northing - from.place.northing) / level};
    const double rise = (to.height - from.height).value() / level;
    double in_crowns = 0.0;
    for (core::Ray at(canopy_height.grid, from.place, ahead); at.on_grid() && at.entered() < end;) {
        const std::size_t cell = at.index();
        const double entered = at.entered();
        at.step();
        if (canopy_height.known[cell] == 0) continue;
        const double left = std::min(at.entered(), end);
        const double line = from.height.value() + rise * 0.5 * (entered + left);
        const auto top = static_cast<double>(canopy_height.values[cell]);
        if (top > line && top * crowns_begin < line) in_crowns += left - entered;
    }
    return core::Metres(in_crowns);
}

}  // namespace roostward::canopy
