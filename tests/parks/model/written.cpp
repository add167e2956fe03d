#include "parks/model/written.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <string>

#include "roostward/core/random.hpp"

namespace roostward::parks {
namespace {

using core::PlanePoint;
using core::RandomStream;

constexpr double square = 25.0;               // metres
constexpr double distance_error = 0.15;       // standard deviation of its log
constexpr double distance_step = 5.0;         // metres
constexpr double accuracy_by_eye = 0.163;     // of the distance, as the reader takes it for compass words
constexpr std::size_t points_a_stretch = 16;  // of a route, 5 m apart
constexpr double drawing_error = 10.0;        // metres, root mean square
constexpr double along_a_route = 30.0;        // metres
constexpr double mostly = 0.75;

core::Degrees compass_point(core::Degrees bearing) {
    return core::normalised(core::Degrees(22.5 * std::round(bearing.value() / 22.5)));
}

struct Noted {
    core::Records<survey::Pass> passes;
    core::Records<survey::Tally> tallies{"tallies", "tallies", {}, 0};
    core::Records<survey::Route> routes{"routes", "routes", {}, 0};
};

PlanePoint station_of(const Park& park, const survey::Pass& pass) {
    return std::ranges::find(park.watches.rows, pass.watch, &survey::Watch::name)->path.front();
}

void into_squares(survey::Pass& pass) {
    const auto middle = [](double metres) { return square * (std::floor(metres / square) + 0.5); };
    pass.position = {middle(pass.position.easting), middle(pass.position.northing)};
    pass.accuracy = core::Metres(square / std::sqrt(12.0));
    pass.step = core::Metres(square);
}

void from_station(survey::Pass& pass, PlanePoint station, RandomStream& random) {
    const double guessed =
        core::distance(station, pass.position).value() * std::exp(distance_error * random.normal());
    pass.position = core::moved(station, compass_point(core::grid_bearing(station, pass.position)),
                                core::Metres(distance_step * std::round(guessed / distance_step)));
    pass.accuracy = accuracy_by_eye * core::distance(station, pass.position);
}

geo::Line sketch_of(const Route& route, RandomStream& random) {
    geo::Line sketch;
    const double each_axis = drawing_error / std::sqrt(2.0);
    for (std::size_t i = 0; i < route.middle.size(); ++i) {
        if (i % points_a_stretch != 0 && i + 1 != route.middle.size()) continue;
        const double east = each_axis * random.normal(), north = each_axis * random.normal();
        sketch.push_back({route.middle[i].easting + east, route.middle[i].northing + north});
    }
    return sketch;
}

/// The number of the route that a place is on; as many as there are routes: on none.
std::size_t route_at(const Park& park, PlanePoint place) {
    std::size_t nearest = park.routes.size();
    double least = along_a_route * along_a_route;
    for (std::size_t r = 0; r < park.routes.size(); ++r)
        for (const PlanePoint point : park.routes[r].middle)
            if (const double squared = core::squared_distance(point, place); squared < least) {
                least = squared;
                nearest = r;
            }
    return nearest;
}

void count_up(const Park& park, Noted& noted, RandomStream& random) {
    for (std::size_t r = 0; r < park.routes.size(); ++r)
        noted.routes.rows.push_back({r + 1, "route " + std::to_string(r), sketch_of(park.routes[r], random)});
    std::map<std::pair<std::string, std::size_t>, double> counts;
    for (const survey::Pass& pass : park.passes.rows)
        ++counts[{pass.watch, route_at(park, pass.position)}];
    for (const auto& [of, count] : counts) {
        survey::Tally tally;
        tally.row = noted.tallies.rows.size() + 1;
        tally.watch = of.first;
        tally.count = count;
        if (of.second < park.routes.size()) {
            tally.along = noted.routes.rows[of.second].name;
            tally.share = mostly;
        }
        noted.tallies.rows.push_back(tally);
    }
    noted.passes.rows.clear();
}

void write_otherwise(const Park& park, survey::Pass& pass, Way way, RandomStream& random) {
    const bool in_squares = way == Way::squares || way == Way::squares_and_compass;
    if (in_squares) into_squares(pass);
    if (way == Way::squares_and_compass) pass.bearing = compass_point(*pass.bearing);
    if (way == Way::from_the_station) from_station(pass, station_of(park, pass), random);
    if (way == Way::recorder) {
        pass.position = station_of(park, pass);
        pass.place_of = survey::PlaceOf::recorder;
    }
    if (way == Way::squares || way == Way::without_bearings || way == Way::recorder) pass.bearing.reset();
}

}  // namespace

survey::Survey survey_written(const Park& park, Way way, std::uint64_t seed) {
    RandomStream random(seed, "written down");
    Noted noted{park.passes};
    if (way == Way::tallies) count_up(park, noted, random);
    for (survey::Pass& pass : noted.passes.rows)
        write_otherwise(park, pass, way, random);
    return survey::match({noted.passes, {}, noted.tallies, park.watches, noted.routes}, {}, {}).survey;
}

}  // namespace roostward::parks
