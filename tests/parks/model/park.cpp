#include "parks/model/park.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <span>
#include <string>
#include <utility>

#include "parks/model/noticing.hpp"
#include "parks/model/stations.hpp"
#include "parks/model/truth.hpp"

namespace roostward::parks {
namespace {

using core::PlanePoint;
using core::RandomStream;

constexpr std::size_t scattered_trees = 140;
constexpr std::size_t avenues = 6;
constexpr std::size_t trees_an_avenue = 30;
constexpr double avenue_spacing = 12.0;  // metres
constexpr std::size_t route_trees = 80;
constexpr double route_tree_aside = 25.0;  // metres, standard deviation
constexpr double suitable_share = 1.0 / 3.0;

constexpr double evening_hours = 1.5;
constexpr double station_hours[] = {1.5, 1.0, 0.5};
constexpr double station_range[] = {55.0, 40.0, 30.0};
constexpr std::size_t unseen_evenings = 60;

void plant_avenue(std::vector<ParkTree>& trees, RandomStream& random) {
    const core::Degrees bearing(random.uniform(0.0, 360.0));
    const double length = avenue_spacing * static_cast<double>(trees_an_avenue - 1);
    const PlanePoint first = core::moved(anywhere(random), bearing, core::Metres(-length / 2.0));
    for (std::size_t i = 0; i < trees_an_avenue; ++i) {
        const core::Metres along(avenue_spacing * static_cast<double>(i));
        trees.push_back({blurred(core::moved(first, bearing, along), 1.0, random), false});
    }
}

std::vector<ParkTree> plant(std::span<const Route> routes, RandomStream& random) {
    std::vector<ParkTree> trees;
    for (std::size_t i = 0; i < scattered_trees; ++i)
        trees.push_back({anywhere(random), false});
    for (std::size_t i = 0; i < avenues; ++i)
        plant_avenue(trees, random);
    for (std::size_t i = 0; i < route_trees; ++i)
        trees.push_back({beside(routes[random.below(routes.size())], route_tree_aside, random), false});
    for (ParkTree& tree : trees)
        tree.suitable = random.uniform() < suitable_share;
    return trees;
}

core::Instant nine_pm(core::Evening evening) {
    return std::chrono::sys_days(evening.date) + std::chrono::hours(21);
}

core::Instant later(core::Instant start, double hours) {
    return start + std::chrono::milliseconds(static_cast<std::int64_t>(hours * 3.6e6));
}

survey::Watch watch_from(PlanePoint place, std::size_t station, core::Evening evening) {
    survey::Watch watch;
    watch.name = core::to_text(evening) + " station " + std::to_string(station + 1);
    watch.path = {place};
    watch.evening = evening;
    watch.start = nine_pm(evening);
    watch.end = later(watch.start, station_hours[station]);
    watch.range = core::Metres(station_range[station]);
    return watch;
}

/// Writes down what is noticed of one flight from the watches of its evening.
void watch_flight(const geo::Line& path, core::Instant time, std::span<const survey::Watch> watches,
                  std::vector<survey::Pass>& passes, RandomStream& random) {
    for (const survey::Watch& watch : watches) {
        if (time > watch.end) continue;
        auto pass = noticed(path, watch, watch.range, random);
        if (!pass) continue;
        pass->row = passes.size() + 1;
        pass->time = time;
        passes.push_back(std::move(*pass));
    }
}

void watch_evenings(Park& park, std::size_t evenings, double evening_sd, RandomStream& random) {
    auto& watches = park.watches.rows;
    Stations stations(park.routes, std::size(station_hours), random);
    for (std::size_t e = 0; e < evenings; ++e) {
        const core::Evening evening{std::chrono::sys_days(std::chrono::year(2031) / 6 / 1) +
                                    std::chrono::days(7 * static_cast<int>(e))};
        if (e > 0) stations.move_some(park.routes, random);
        const std::size_t first = watches.size();
        for (std::size_t s = 0; s < stations.places().size(); ++s) {
            watches.push_back(watch_from(stations.places()[s], s, evening));
            watches.back().row = watches.size();
        }
        for (const geo::Line& path : draw_evening(park.routes, evening_hours, evening_sd, random)) {
            const core::Instant time = later(nine_pm(evening), random.uniform() * evening_hours);
            watch_flight(path, time, std::span(watches).subspan(first), park.passes.rows, random);
        }
    }
    park.passes.read = park.passes.rows.size();
    park.watches.read = watches.size();
}

}  // namespace

Park park_around(std::vector<Route> routes, std::uint64_t seed, std::size_t evenings, double evening_sd) {
    RandomStream planting(seed, "trees"), watching(seed, "watching"), unseen(seed, "unseen evenings");
    Park park;
    park.routes = std::move(routes);
    park.passes = {"passes", "passes", {}, 0};
    park.watches = {"watches", "watches", {}, 0};
    park.trees = plant(park.routes, planting);
    watch_evenings(park, evenings, evening_sd, watching);
    FlightNearTrees truth = flight_near_trees(park.routes, park.trees, unseen_evenings, evening_sd, unseen);
    park.truth = std::move(truth.metres);
    park.true_flights = std::move(truth.flights);
    return park;
}

Park make_park(std::uint64_t seed, std::size_t evenings, double evening_sd) {
    RandomStream random(seed, "routes");
    std::vector<Route> routes(2 + random.below(3));
    for (Route& route : routes)
        route = draw_route(random);
    return park_around(std::move(routes), seed, evenings, evening_sd);
}

}  // namespace roostward::parks
