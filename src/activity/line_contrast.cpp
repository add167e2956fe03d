#include "line_contrast.hpp"

#include <cmath>

#include "roostward/activity/contrast.hpp"

namespace roostward::activity {

namespace {

/// How far to the side the ground beside a path reaches, in widths of the ground along it.
constexpr double beside_reach = 4.0;
/// Places on each side at which effort is asked for, along the path and beside it.
constexpr int places_a_side = 8;

/// A flight whose way is not known may.
bool may_go_along(const geo::Line& path, const PlaceBy& by) {
    const core::PlanePoint from = path[by.nearest.piece], to = path[by.nearest.piece + 1];
    const double east = to.easting - from.easting, north = to.northing - from.northing;
    return std::fabs(by.place->east * east + by.place->north * north) >=
           std::fabs(by.place->east * north - by.place->north * east);
}

struct OnOff {
    double on = 0.0, off = 0.0;
};

/// Adds effort times area abreast of one stretch, by the midpoint rule.
void add_effort(OnOff& effort, core::PlanePoint a, core::PlanePoint b, const core::Raster& hours,
                double close) {
    const double length = core::distance(a, b).value();
    const double dx = (b.easting - a.easting) / length, dy = (b.northing - a.northing) / length;
    const auto steps = static_cast<std::size_t>(std::ceil(length / close));
    const double on_area = length / static_cast<double>(steps) * close / places_a_side,
                 off_area = on_area * (beside_reach - 1.0);
    const auto hours_at = [&](double along, double aside) {
        const core::PlanePoint p{a.easting + along * dx - aside * dy, a.northing + along * dy + aside * dx};
        return static_cast<double>(hours.at(p).value_or(0.0F));
    };
    for (std::size_t step = 0; step < steps; ++step)
        for (int i = 0; i < places_a_side; ++i) {
            const double along = (static_cast<double>(step) + 0.5) / static_cast<double>(steps) * length,
                         share = (i + 0.5) / places_a_side;
            const double on = share * close, off = close * (1.0 + share * (beside_reach - 1.0));
            effort.on += on_area * (hours_at(along, on) + hours_at(along, -on));
            effort.off += off_area * (hours_at(along, off) + hours_at(along, -off));
        }
}

}  // namespace

double contrast_along(const geo::Line& path, const std::vector<Place>& places, const core::Raster& hours,
                      core::Metres close) {
    OnOff seen, effort;
    for (const PlaceBy& by : places_by(path, places, beside_reach * close)) {
        if (by.nearest.beyond_end || !may_go_along(path, by)) continue;
        const bool on = by.nearest.squared_distance <= close.value() * close.value();
        (on ? seen.on : seen.off) += by.place->share;
    }
    for (std::size_t i = 0; i + 1 < path.size(); ++i)
        if (path[i] != path[i + 1]) add_effort(effort, path[i], path[i + 1], hours, close.value());
    return effort.off > 0.0 ? contrast(seen.on, seen.off, effort.on / effort.off) : 0.0;
}

}  // namespace roostward::activity
