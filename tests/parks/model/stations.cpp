#include "parks/model/stations.hpp"

#include <algorithm>

#include "roostward/core/grid.hpp"

namespace roostward::parks {
namespace {

using core::PlanePoint;
using core::RandomStream;

constexpr double station_aside = 15.0;   // metres, standard deviation
constexpr double station_margin = 60.0;  // metres from the edge
constexpr double station_spacing = 120.0;
constexpr int station_tries = 200;
constexpr double moved_share = 0.15;

/// A route, drawn in proportion to its flights.
const Route& busy_route(std::span<const Route> routes, RandomStream& random) {
    double all = 0.0;
    for (const Route& route : routes)
        all += route.flights_per_hour;
    double left = random.uniform() * all;
    std::size_t i = 0;
    while (i + 1 < routes.size() && left >= routes[i].flights_per_hour)
        left -= routes[i++].flights_per_hour;
    return routes[i];
}

}  // namespace

PlanePoint blurred(PlanePoint p, double sd, RandomStream& random) {
    const double east = sd * random.normal(), north = sd * random.normal();
    return {p.easting + east, p.northing + north};
}

/// A place in the park beside the route.
PlanePoint beside(const Route& route, double sd, RandomStream& random) {
    while (true) {
        const PlanePoint place = blurred(route.middle[random.below(route.middle.size())], sd, random);
        if (core::Box{{0, 0}, {park_width, park_height}}.holds(place)) return place;
    }
}

Stations::Stations(std::span<const Route> routes, std::size_t count, RandomStream& random) {
    while (places_.size() < count)
        places_.push_back(next(routes, random));
}

void Stations::move_some(std::span<const Route> routes, RandomStream& random) {
    for (PlanePoint& station : places_)
        if (random.uniform() < moved_share) station = next(routes, random);
}

/// The last try stands even where it is too near another station or the edge.
PlanePoint Stations::next(std::span<const Route> routes, RandomStream& random) {
    near_route_ = !near_route_;
    PlanePoint place;
    for (int tries = 0; tries < station_tries; ++tries) {
        place = near_route_ ? beside(busy_route(routes, random), station_aside, random) : anywhere(random);
        if (stands_apart(place)) break;
    }
    return place;
}

bool Stations::stands_apart(PlanePoint place) const {
    const core::Box inner{{station_margin, station_margin},
                          {park_width - station_margin, park_height - station_margin}};
    return inner.holds(place) && std::all_of(places_.begin(), places_.end(), [&](PlanePoint other) {
               return core::distance(place, other).value() >= station_spacing;
           });
}

}  // namespace roostward::parks
