#include "parks/model/truth.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "roostward/core/grid.hpp"

namespace roostward::parks {
namespace {

using core::PlanePoint;

constexpr double near_tree = 10.0;  // metres, for metres flown
constexpr double past_tree = 20.0;  // metres, for flights that come past
constexpr double cell = 10.0;
constexpr double longest_piece = 20.0;  // of a flight, metres

/// For each cell the trees that a piece of flight with its middle there can come near.
class TreesByCell {
 public:
    explicit TreesByCell(std::span<const ParkTree> trees)
        : grid_(core::grid_over({{-100, -100}, {park_width + 100, park_height + 100}}, core::Metres(cell))),
          near_(grid_.size()) {
        const double reach = past_tree + longest_piece / 2.0 + cell * std::sqrt(0.5);
        for (std::size_t i = 0; i < grid_.size(); ++i) {
            const PlanePoint centre = grid_.centre({i / grid_.columns, i % grid_.columns});
            for (std::size_t t = 0; t < trees.size(); ++t)
                if (core::squared_distance(centre, trees[t].stem) <= reach * reach) near_[i].push_back(t);
        }
    }

    [[nodiscard]] std::span<const std::size_t> near(PlanePoint p) const {
        const auto found = grid_.cell_of(p);
        if (!found) return {};
        return near_[grid_.index(*found)];
    }

 private:
    core::Grid grid_;
    std::vector<std::vector<std::size_t>> near_;
};

}  // namespace

std::vector<geo::Line> draw_evening(std::span<const Route> routes, double hours, double evening_sd,
                                    core::RandomStream& random) {
    std::vector<geo::Line> flights;
    for (const Route& route : routes) {
        const double expected = route.flights_per_hour * evening_factor(evening_sd, random) * hours;
        for (std::uint64_t left = random.poisson(expected); left > 0; --left)
            flights.push_back(draw_flight(route, random));
    }
    for (std::uint64_t left = random.poisson(foraging_per_hour * hours); left > 0; --left)
        flights.push_back(draw_foraging_flight(random));
    return flights;
}

double length_within(PlanePoint a, PlanePoint b, PlanePoint middle, double radius) {
    const double dx = b.easting - a.easting, dy = b.northing - a.northing;
    const double length = std::hypot(dx, dy);
    if (length == 0.0) return 0.0;
    const double ux = dx / length, uy = dy / length;
    const double mx = middle.easting - a.easting, my = middle.northing - a.northing;
    const double along = mx * ux + my * uy, aside = mx * uy - my * ux;
    const double half_squared = radius * radius - aside * aside;
    if (half_squared <= 0.0) return 0.0;
    const double half = std::sqrt(half_squared);
    return std::max(0.0, std::min(length, along + half) - std::max(0.0, along - half));
}

FlightNearTrees flight_near_trees(std::span<const Route> routes, std::span<const ParkTree> trees,
                                  std::size_t evenings, double evening_sd, core::RandomStream& random) {
    constexpr std::size_t nothing = ~std::size_t{0};
    const TreesByCell by_cell(trees);
    FlightNearTrees near{std::vector<double>(trees.size(), 0.0), std::vector<double>(trees.size(), 0.0)};
    std::vector<std::size_t> last_flight(trees.size(), nothing);
    std::size_t flight = 0;
    for (std::size_t e = 0; e < evenings; ++e) {
        for (const geo::Line& path : draw_evening(routes, 1.0, evening_sd, random)) {
            for (std::size_t i = 1; i < path.size(); ++i) {
                const PlanePoint a = path[i - 1], b = path[i];
                const PlanePoint middle{(a.easting + b.easting) / 2.0, (a.northing + b.northing) / 2.0};
                for (const std::size_t t : by_cell.near(middle)) {
                    near.metres[t] += length_within(a, b, trees[t].stem, near_tree);
                    if (last_flight[t] == flight || length_within(a, b, trees[t].stem, past_tree) <= 0.0)
                        continue;
                    last_flight[t] = flight;
                    near.flights[t] += 1.0;
                }
            }
            ++flight;
        }
    }
    for (auto* values : {&near.metres, &near.flights})
        for (double& value : *values)
            value /= static_cast<double>(evenings);
    return near;
}

}  // namespace roostward::parks
