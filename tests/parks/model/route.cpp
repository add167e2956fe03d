#include "parks/model/route.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace roostward::parks {
namespace {

using core::PlanePoint;
using core::RandomStream;

constexpr double step = 5.0;              // metres between the points of a flight
constexpr double shortest_route = 250.0;  // metres between its ends
constexpr double longest_route = 600.0;
constexpr double side_offset = 4.5;        // metres, standard deviation
constexpr double side_correlation = 60.0;  // metres
constexpr double unused_evening = 1.0 / 8.0;
constexpr double partial_flight = 0.3;

/// Cubic Bézier curve through both ends, bent to the side by up to a quarter of its length at each third.
geo::Line draw_curve(PlanePoint from, PlanePoint to, RandomStream& random) {
    const double dx = to.easting - from.easting, dy = to.northing - from.northing;
    const auto control = [&](double along, double aside) {
        return PlanePoint{from.easting + along * dx - aside * dy, from.northing + along * dy + aside * dx};
    };
    const PlanePoint first = control(1.0 / 3.0, random.uniform(-0.25, 0.25));
    const PlanePoint second = control(2.0 / 3.0, random.uniform(-0.25, 0.25));
    const auto pieces = static_cast<std::size_t>(std::ceil(std::hypot(dx, dy) / step));
    geo::Line line;
    for (std::size_t i = 0; i <= pieces; ++i) {
        const double t = static_cast<double>(i) / static_cast<double>(pieces), u = 1.0 - t;
        const double a = u * u * u, b = 3 * u * u * t, c = 3 * u * t * t, d = t * t * t;
        line.push_back({a * from.easting + b * first.easting + c * second.easting + d * to.easting,
                        a * from.northing + b * first.northing + c * second.northing + d * to.northing});
    }
    return line;
}

/// The points of the route that this flight passes, in its direction.
geo::Line draw_part(const geo::Line& middle, RandomStream& random) {
    std::size_t first = 0, count = middle.size();
    if (random.uniform() < partial_flight) {
        count = static_cast<std::size_t>(random.uniform(0.3, 0.7) * static_cast<double>(middle.size()));
        first = random.below(middle.size() - count + 1);
    }
    const auto begin = middle.begin() + static_cast<std::ptrdiff_t>(first);
    geo::Line part(begin, begin + static_cast<std::ptrdiff_t>(count));
    if (random.uniform() < 0.5) std::reverse(part.begin(), part.end());
    return part;
}

}  // namespace

double evening_factor(double evening_sd, RandomStream& random) {
    const double busy = std::exp(evening_sd * random.normal() - evening_sd * evening_sd / 2.0);
    return random.uniform() < unused_evening ? 0.0 : busy;
}

PlanePoint anywhere(RandomStream& random) {
    const double east = random.uniform(0.0, park_width), north = random.uniform(0.0, park_height);
    return {east, north};
}

Route draw_route(RandomStream& random) {
    PlanePoint from, to;
    double apart = 0.0;
    while (apart < shortest_route || apart > longest_route) {
        from = anywhere(random);
        to = anywhere(random);
        apart = core::distance(from, to).value();
    }
    const double rate = random.uniform(6.0, 40.0);
    return {draw_curve(from, to, random), rate};
}

geo::Line draw_flight(const Route& route, RandomStream& random) {
    geo::Line path = draw_part(route.middle, random);
    const geo::Line middle = path;
    double aside = side_offset * random.normal();
    for (std::size_t i = 0; i < path.size(); ++i) {
        const PlanePoint back = middle[i > 0 ? i - 1 : 0], ahead = middle[std::min(i + 1, path.size() - 1)];
        const double dx = ahead.easting - back.easting, dy = ahead.northing - back.northing;
        const double length = std::hypot(dx, dy);
        path[i].easting -= aside * dy / length;
        path[i].northing += aside * dx / length;
        const double keep = std::exp(-length / (i == 0 ? 1.0 : 2.0) / side_correlation);
        aside = keep * aside + side_offset * std::sqrt(1.0 - keep * keep) * random.normal();
    }
    return path;
}

geo::Line draw_foraging_flight(RandomStream& random) {
    const auto pieces = static_cast<std::size_t>(random.uniform(40.0, 120.0) / step);
    double heading = random.uniform(0.0, 2.0 * std::numbers::pi);
    geo::Line path{anywhere(random)};
    for (std::size_t i = 0; i < pieces; ++i) {
        path.push_back({path.back().easting + step * std::sin(heading),
                        path.back().northing + step * std::cos(heading)});
        heading += std::numbers::pi / 9.0 * random.normal();
    }
    return path;
}

}  // namespace roostward::parks
