#include "line_facts.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace roostward::activity {

namespace {

core::Metres median_of(std::vector<core::Metres> heights) {
    std::ranges::sort(heights);
    const std::size_t half = heights.size() / 2;
    return heights.size() % 2 == 1 ? heights[half] : 0.5 * (heights[half - 1] + heights[half]);
}

/// Within 45° either way: flights across a line say nothing of which way it runs.
bool runs_along(double along, double across) {
    return std::abs(along) >= std::abs(across);
}

void tell_directions(FlightLine& line, const std::vector<PlaceBy>& behind) {
    std::vector<Heading> headings;
    double ahead = 0.0, back = 0.0;
    for (const auto& [place, nearest] : behind) {
        if (place->east == 0.0 && place->north == 0.0) continue;
        const core::PlanePoint from = line.path[nearest.piece], to = line.path[nearest.piece + 1];
        const double east = to.easting - from.easting, north = to.northing - from.northing;
        const double along = place->east * east + place->north * north;
        if (!runs_along(along, place->east * north - place->north * east)) continue;
        headings.push_back({core::grid_bearing({0.0, 0.0}, {place->east, place->north}), place->share});
        (along >= 0.0 ? ahead : back) += place->share;
    }
    if (headings.empty()) return;
    line.axis = mean_axis(headings);
    line.two_way = 2.0 * std::min(ahead, back) / (ahead + back);
}

}  // namespace

void tell_flights(FlightLine& line, const std::vector<PlaceBy>& behind, const survey::Survey& survey,
                  const std::vector<std::uint8_t>& watched) {
    std::set<std::uint32_t> flights;
    for (const PlaceBy& by : behind)
        flights.insert(by.place->flight);
    std::vector<std::uint8_t> used(watched.size(), 0);
    std::vector<core::Metres> heights;
    for (const std::uint32_t f : flights) {
        const survey::Flight& flight = survey.flights[f];
        used[flight.evening] = 1;
        if (flight.height) heights.push_back(*flight.height);
    }
    line.passes = flights.size();
    for (std::size_t n = 0; n < watched.size(); ++n) {
        line.evenings_watched += watched[n] != 0 ? 1 : 0;
        line.evenings_used += watched[n] != 0 && used[n] != 0 ? 1 : 0;
    }
    if (!heights.empty()) line.height = median_of(std::move(heights));
    tell_directions(line, behind);
}

}  // namespace roostward::activity
