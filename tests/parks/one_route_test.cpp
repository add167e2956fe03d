#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "parks/model/choice.hpp"
#include "roostward/geo/crs.hpp"

namespace roostward::parks {
namespace {

/// Where a park stands on the globe: its ground is laid out in metres east and north of the origin.
struct Place {
    std::string name;
    core::GeographicPoint origin;
    std::string utm_zone;
};

void PrintTo(const Place& place, std::ostream* out) {
    *out << place.name;
}

/// A park with one route of 30 flights an hour, in its own metres.
Park one_route_park(std::uint64_t seed) {
    core::RandomStream random(seed, "one route");
    Route route = draw_route(random);
    route.flights_per_hour = 30.0;
    return park_around({route}, seed, 3);
}

/// Moves everything that roostward reads into the planning plane, by way of longitude and latitude.
void lay_into_plane(Park& park, const Place& place) {
    const geo::Crs local{
        "+proj=aeqd +datum=WGS84 +units=m +lon_0=" + std::to_string(place.origin.longitude.value()) +
        " +lat_0=" + std::to_string(place.origin.latitude.value())};
    const auto plane = geo::utm_zone_of(std::vector{place.origin});
    ASSERT_TRUE(plane.has_value());
    EXPECT_EQ(geo::facts_of(*plane).authority, place.utm_zone);
    const geo::Transform to_globe(local, geo::wgs84()), to_plane(geo::wgs84(), *plane);
    const auto moved = [&](core::PlanePoint p) { return to_plane(to_globe(p)); };
    const geo::Transform from_plane(*plane, geo::wgs84());
    const core::Degrees convergence = geo::plane_facts(from_plane, moved({0, 0})).meridian_convergence;
    for (ParkTree& tree : park.trees)
        tree.stem = moved(tree.stem);
    for (survey::Watch& watch : park.watches.rows)
        watch.path = {moved(watch.path.front())};
    for (survey::Pass& pass : park.passes.rows) {
        pass.position = moved(pass.position);
        pass.bearing = core::normalised(*pass.bearing - convergence);
    }
}

double metres_to(const geo::Line& middle, core::PlanePoint p) {
    double nearest = 1e9;
    for (const core::PlanePoint on : middle)
        nearest = std::min(nearest, core::distance(on, p).value());
    return nearest;
}

class OneRoute : public testing::TestWithParam<Place> {};

// Three evenings of watching show one well-used route: the best-ranked suitable tree stands within 10 m of it
// (common practice, no source).
TEST_P(OneRoute, TheBestTreeStandsOnIt) {
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        Park park = one_route_park(seed);
        const std::vector<ParkTree> in_own_metres = park.trees;
        lay_into_plane(park, GetParam());
        const auto candidates = assess(park, {core::Metres(7.0), core::Hours(0.4)}, {});
        const auto ranked = siting::in_order_of_rank(candidates);
        ASSERT_FALSE(ranked.empty()) << "park " << seed;
        EXPECT_LE(metres_to(park.routes.front().middle, in_own_metres[ranked.front()].stem), 10.0)
            << "park " << seed << ", tree " << ranked.front();
    }
}

INSTANTIATE_TEST_SUITE_P(
    BothHemispheres, OneRoute,
    testing::Values(Place{"north", {core::Degrees(-0.5), core::Degrees(51.4)}, "EPSG:32630"},
                    Place{"south", {core::Degrees(145.0), core::Degrees(-37.8)}, "EPSG:32755"}),
    [](const auto& test) { return test.param.name; });

}  // namespace
}  // namespace roostward::parks
