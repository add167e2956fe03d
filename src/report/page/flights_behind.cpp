#include "flights_behind.hpp"

#include <algorithm>

#include "roostward/geo/edges.hpp"

namespace roostward::report {

namespace {

/// Whether `from` to `to` goes the way that the line goes where it is nearest.
bool goes_ahead(const geo::Line& line, core::PlanePoint from, core::PlanePoint to) {
    const core::PlanePoint middle{0.5 * (from.easting + to.easting), 0.5 * (from.northing + to.northing)};
    std::size_t nearest = 1;
    double least = -1.0;
    for (std::size_t i = 1; i < line.size(); ++i) {
        const double away = core::squared_distance(geo::closest_on(line[i - 1], line[i], middle), middle);
        if (least >= 0.0 && away >= least) continue;
        least = away;
        nearest = i;
    }
    const core::PlanePoint a = line[nearest - 1], b = line[nearest];
    return (b.easting - a.easting) * (to.easting - from.easting) +
               (b.northing - a.northing) * (to.northing - from.northing) >=
           0.0;
}

}  // namespace

std::vector<std::vector<Heading>> flights_behind_lines(const plan::Plan& plan) {
    std::vector<std::vector<Heading>> behind(plan.flight_lines.size());
    std::vector<geo::NearestShape> lines;
    for (const auto& line : plan.flight_lines)
        lines.emplace_back(std::vector<geo::Shape>{{{}, {line.path}, {}}});
    const core::Metres reach = std::max(plan.bandwidth.h, core::Metres(10.0));
    for (const auto& flight : plan.survey.flights) {
        if (!flight.place_was_seen() || flight.path.size() < 2) continue;
        const double length = geo::length_of(flight.path).value();
        for (std::size_t i = 1; i < flight.path.size(); ++i) {
            const core::PlanePoint from = flight.path[i - 1], to = flight.path[i];
            const double part = core::distance(from, to).value();
            if (part <= 0.0) continue;
            const core::PlanePoint middle{0.5 * (from.easting + to.easting),
                                          0.5 * (from.northing + to.northing)};
            const core::Degrees bearing =
                core::normalised(core::grid_bearing(from, to) + plan.meridian_convergence);
            for (std::size_t line = 0; line < lines.size(); ++line)
                if (lines[line].nearest_within(middle, reach))
                    behind[line].push_back({bearing, flight.count * part / length,
                                            goes_ahead(plan.flight_lines[line].path, from, to)});
        }
    }
    return behind;
}

}  // namespace roostward::report
