#include "roostward/geo/crs.hpp"

#include <geodesic.h>

namespace roostward::geo {

namespace {

struct Way {
    double metres = 0.0;
    double bearing = 0.0;
};

Way shortest_way(core::GeographicPoint from, core::GeographicPoint to) {
    geod_geodesic globe;
    geod_init(&globe, 6378137.0, 1.0 / 298.257223563);
    Way way;
    geod_inverse(&globe, from.latitude.value(), from.longitude.value(), to.latitude.value(),
                 to.longitude.value(), &way.metres, &way.bearing, nullptr);
    return way;
}

}  // namespace

core::Metres geodesic_distance(core::GeographicPoint from, core::GeographicPoint to) {
    return core::Metres(shortest_way(from, to).metres);
}

core::Degrees geodesic_bearing(core::GeographicPoint from, core::GeographicPoint to) {
    return core::normalised(core::Degrees(shortest_way(from, to).bearing));
}

}  // namespace roostward::geo
