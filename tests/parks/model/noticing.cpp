#include "parks/model/noticing.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "parks/model/stations.hpp"

namespace roostward::parks {
namespace {

using core::PlanePoint;
using core::RandomStream;

constexpr double place_error = 4.0;     // metres on each axis
constexpr double bearing_error = 15.0;  // degrees

double half_normal(PlanePoint a, PlanePoint b, double range) {
    return std::exp(-core::squared_distance(a, b) / (2.0 * range * range));
}

}  // namespace

std::optional<survey::Pass> noticed(const geo::Line& path, const survey::Watch& watch, core::Metres range,
                                    RandomStream& random) {
    const PlanePoint station = watch.path.front();
    std::vector<double> seen(path.size());
    double best = 0.0, total = 0.0;
    for (std::size_t i = 0; i < path.size(); ++i) {
        seen[i] = half_normal(path[i], station, range.value());
        best = std::max(best, seen[i]);
        total += seen[i];
    }
    if (random.uniform() >= best) return std::nullopt;
    double left = random.uniform() * total;
    std::size_t at = 0;
    while (at + 1 < path.size() && left >= seen[at])
        left -= seen[at++];
    const std::size_t back = at > 0 ? at - 1 : 0, ahead = std::min(at + 1, path.size() - 1);
    survey::Pass pass;
    pass.position = blurred(path[at], place_error, random);
    const double bearing =
        core::grid_bearing(path[back], path[ahead]).value() + bearing_error * random.normal();
    pass.bearing = core::normalised(core::Degrees(bearing));
    pass.evening = watch.evening;
    pass.watch = watch.name;
    return pass;
}

}  // namespace roostward::parks
