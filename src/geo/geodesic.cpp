#include "roostward/geo/crs.hpp"

#include <geodesic.h>

#include <cmath>

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

PlaneFacts plane_facts(const Transform& to_globe, core::PlanePoint at) {
    constexpr double step = 100.0;  // m
    const auto way_north = [&, here = on_globe(to_globe(at))](double metres) {
        return shortest_way(here, on_globe(to_globe({at.easting, at.northing + metres})));
    };
    const Way north = way_north(step), south = way_north(-step);
    const double half_turn = std::remainder(south.bearing - north.bearing - 180.0, 360.0);
    return {core::Degrees(std::remainder(north.bearing + 0.5 * half_turn, 360.0)),
            2.0 * step / (north.metres + south.metres)};
}

}  // namespace roostward::geo
