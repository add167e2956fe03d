#include "roostward/canopy/shade.hpp"

#include <algorithm>
#include <cstddef>
#include <limits>

#include "roostward/core/ray.hpp"

namespace roostward::canopy {

namespace {

constexpr double crowns_begin = 1.0 / 3.0;

/// Heights of the ground above that of the lower end of a line; 0 all over where nothing is told.
class GroundAlong {
 public:
    GroundAlong(const core::Raster* heights, const Spot& from, const Spot& to) : heights_(heights) {
        if (heights_ == nullptr) return;
        const auto first = heights_->at(from.place), last = heights_->at(to.place);
        if (!first && !last) return;
        base_ = std::min(first.value_or(*(first ? first : last)), last.value_or(*(first ? first : last)));
        from_ = first ? *first - base_ : 0.0;
        to_ = last ? *last - base_ : 0.0;
    }
    [[nodiscard]] double from() const { return from_; }
    [[nodiscard]] double to() const { return to_; }
    [[nodiscard]] double in(std::size_t cell) const {
        if (heights_ == nullptr || heights_->known[cell] == 0) return 0.0;
        return heights_->values[cell] - base_;
    }

 private:
    const core::Raster* heights_;
    double base_ = 0.0, from_ = 0.0, to_ = 0.0;
};

}  // namespace

core::Metres crowns_between(const core::Raster& canopy_height, const Spot& from, const Spot& to,
                            core::Metres but, const core::Raster* ground_height) {
    const double level = core::distance(from.place, to.place).value();
    const double end = level - but.value();
    if (end <= 0.0) return core::Metres(0.0);
    const core::PlanePoint ahead{(to.place.easting - from.place.easting) / level,
                                 (to.place.northing - from.place.northing) / level};
    const GroundAlong ground(ground_height, from, to);
    const double start = ground.from() + from.height.value();
    const double rise = (ground.to() + to.height.value() - start) / level;
    double in_crowns = 0.0;
    for (core::Ray at(canopy_height.grid, from.place, ahead); at.on_grid() && at.entered() < end;) {
        const std::size_t cell = at.index();
        const double entered = at.entered();
        at.step();
        const double left = std::min(at.entered(), end);
        const double line = start + rise * 0.5 * (entered + left) - ground.in(cell);
        if (line < 0.0) return core::Metres(std::numeric_limits<double>::infinity());
        if (canopy_height.known[cell] == 0) continue;
        const auto top = static_cast<double>(canopy_height.values[cell]);
        if (top > line && top * crowns_begin < line) in_crowns += left - entered;
    }
    return core::Metres(in_crowns);
}

}  // namespace roostward::canopy
