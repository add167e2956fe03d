#include "parks/model/lines.hpp"

#include <cmath>
#include <functional>

#include "parks/model/choice.hpp"
#include "parks/model/share.hpp"

namespace roostward::parks {
namespace {

constexpr double near_line = 10.0;  // metres
constexpr double least_flights = 8.0;
constexpr double least_hours = 1.0;

using Where = std::function<bool(core::PlanePoint)>;

/// Length of the line where `holds` is true, by steps of about a metre.
double length_where(const geo::Line& line, const Where& holds) {
    double length = 0.0;
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        const double piece = core::distance(line[i], line[i + 1]).value();
        const double steps = std::ceil(piece);
        for (double k = 0.5; k < steps; k += 1.0) {
            const double t = k / steps;
            if (holds({line[i].easting + t * (line[i + 1].easting - line[i].easting),
                       line[i].northing + t * (line[i + 1].northing - line[i].northing)}))
                length += piece / steps;
        }
    }
    return length;
}

geo::NearestShape index_of(const std::vector<geo::Line>& lines) {
    std::vector<geo::Shape> shapes;
    for (const geo::Line& line : lines)
        shapes.push_back({{}, {line}, {}});
    return geo::NearestShape(shapes);
}

}  // namespace

std::vector<activity::FlightLine> lines_of(const Park& park, activity::Bandwidth bandwidth) {
    return activity::find_flight_lines(survey_of(park), bandwidth, {}, core::Threads{1});
}

LineTally& LineTally::operator+=(const LineTally& other) {
    true_length += other.true_length;
    found_length += other.found_length;
    line_length += other.line_length;
    right_length += other.right_length;
    return *this;
}

LineTally tally_of(const Park& park, const std::vector<activity::FlightLine>& lines) {
    std::vector<geo::Line> found, routes;
    for (const auto& line : lines)
        found.push_back(line.path);
    for (const Route& route : park.routes)
        if (route.flights_per_hour > 0.0) routes.push_back(route.middle);
    const geo::NearestShape to_found = index_of(found), to_routes = index_of(routes);
    const auto within = [](const geo::NearestShape& shapes, core::PlanePoint p) {
        return shapes.nearest_within(p, core::Metres(near_line)).has_value();
    };
    LineTally tally;
    for (const Route& route : park.routes) {
        if (route.flights_per_hour < least_flights) continue;
        const auto watched = [&](core::PlanePoint p) { return effective_hours(park, p) >= least_hours; };
        tally.true_length += length_where(route.middle, watched);
        tally.found_length +=
            length_where(route.middle, [&](core::PlanePoint p) { return watched(p) && within(to_found, p); });
    }
    for (const geo::Line& line : found) {
        tally.line_length += geo::length_of(line).value();
        tally.right_length += length_where(line, [&](core::PlanePoint p) { return within(to_routes, p); });
    }
    return tally;
}

Park constant_rate_park(std::uint64_t seed, std::size_t evenings) {
    core::RandomStream random(seed, "a route that nobody takes");
    Route route = draw_route(random);
    route.flights_per_hour = 0.0;
    return park_around({route}, seed, evenings);
}

}  // namespace roostward::parks
