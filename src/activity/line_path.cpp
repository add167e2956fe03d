#include "line_path.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "roostward/geo/edges.hpp"

namespace roostward::activity {

namespace {

/// How far along the stretch from `a` to `b` the foot of `p` lies: 0 at `a`, 1 at `b`, or beyond.
double share_along(core::PlanePoint a, core::PlanePoint b, core::PlanePoint p) {
    const double dx = b.easting - a.easting, dy = b.northing - a.northing;
    const double squared_length = dx * dx + dy * dy;
    if (squared_length == 0.0) return 0.0;
    return ((p.easting - a.easting) * dx + (p.northing - a.northing) * dy) / squared_length;
}

double squared_distance_to(core::PlanePoint a, core::PlanePoint b, core::PlanePoint p) {
    return core::squared_distance(geo::closest_on(a, b, p), p);
}

void keep_between(const geo::Line& path, std::size_t from, std::size_t to, double squared_tolerance,
                  std::vector<std::uint8_t>& kept) {
    double most = squared_tolerance;
    std::size_t furthest = from;
    for (std::size_t i = from + 1; i < to; ++i) {
        const double squared = squared_distance_to(path[from], path[to], path[i]);
        if (squared <= most) continue;
        most = squared;
        furthest = i;
    }
    if (furthest == from) return;
    kept[furthest] = 1;
    keep_between(path, from, furthest, squared_tolerance, kept);
    keep_between(path, furthest, to, squared_tolerance, kept);
}

Place heading(core::PlanePoint at, core::PlanePoint from, core::PlanePoint to, double share,
              std::size_t flight) {
    Place place{at, 0.0, 0.0, share, static_cast<std::uint32_t>(flight)};
    const double length = core::distance(from, to).value();
    if (length == 0.0) return place;
    place.east = (to.easting - from.easting) / length;
    place.north = (to.northing - from.northing) / length;
    return place;
}

}  // namespace

Nearest nearest_on(const geo::Line& path, core::PlanePoint p) {
    Nearest best{std::numeric_limits<double>::infinity(), 0, false};
    for (std::size_t i = 0; i + 1 < path.size(); ++i) {
        const double squared = squared_distance_to(path[i], path[i + 1], p);
        if (squared < best.squared_distance) best = {squared, i, false};
    }
    best.beyond_end = (best.piece == 0 && share_along(path[0], path[1], p) < 0.0) ||
                      (best.piece + 2 == path.size() && share_along(path[best.piece], path.back(), p) > 1.0);
    return best;
}

geo::Line simplified(const geo::Line& path, core::Metres tolerance) {
    if (path.size() < 3) return path;
    std::vector<std::uint8_t> kept(path.size(), 0);
    kept.front() = kept.back() = 1;
    keep_between(path, 0, path.size() - 1, tolerance.value() * tolerance.value(), kept);
    geo::Line simple;
    for (std::size_t i = 0; i < path.size(); ++i)
        if (kept[i] != 0) simple.push_back(path[i]);
    return simple;
}

std::vector<Place> places_of(const survey::Survey& survey) {
    std::vector<Place> places;
    places.reserve(survey.flights.size());
    for (std::size_t f = 0; f < survey.flights.size(); ++f) {
        const auto& flight = survey.flights[f];
        const geo::Line& path = flight.path;
        if (!flight.placed || path.empty()) continue;
        if (flight.noted_in == survey::NotedIn::passes) {
            const core::PlanePoint a = path.front(), b = path.back();
            places.push_back(
                heading({0.5 * (a.easting + b.easting), 0.5 * (a.northing + b.northing)}, a, b, 1.0, f));
            continue;
        }
        for (std::size_t i = 0; i < path.size(); ++i)
            places.push_back(heading(path[i], path[i > 0 ? i - 1 : 0], path[std::min(i + 1, path.size() - 1)],
                                     1.0 / static_cast<double>(path.size()), f));
    }
    return places;
}

std::vector<PlaceBy> places_by(const geo::Line& path, const std::vector<Place>& places, core::Metres reach) {
    std::vector<PlaceBy> found;
    const auto box = geo::box_of(path);
    if (!box) return found;
    const core::Box near = core::widened(*box, reach);
    for (const Place& place : places) {
        if (!near.holds(place.at)) continue;
        const Nearest nearest = nearest_on(path, place.at);
        if (nearest.squared_distance <= reach.value() * reach.value()) found.push_back({&place, nearest});
    }
    return found;
}

}  // namespace roostward::activity
