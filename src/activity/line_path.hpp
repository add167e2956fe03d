#pragma once

#include <cstdint>
#include <vector>

#include "roostward/geo/shape.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::activity {

/// The place on a path that is nearest to a point.
struct Nearest {
    double squared_distance = 0.0;
    std::size_t piece = 0;  ///< from path[piece] to path[piece + 1]
    bool beyond_end = false;
};
/// `path` holds two points and more.
[[nodiscard]] Nearest nearest_on(const geo::Line& path, core::PlanePoint p);

/// With as few of its points as keep it within `tolerance` of where it was (Douglas & Peucker 1973).
[[nodiscard]] geo::Line simplified(const geo::Line& path, core::Metres tolerance);

/// Where a flight was seen: a pass at one place, a track at each of its points. Shares of a flight sum to 1.
struct Place {
    core::PlanePoint at;
    double east = 0.0, north = 0.0;  ///< unit vector of the flight; 0 where not known
    double share = 1.0;
    std::uint32_t flight = 0;  ///< index into Survey::flights
};
[[nodiscard]] std::vector<Place> places_of(const survey::Survey& survey);

/// Those places that lie within `reach` of the path (inclusive), with where.
struct PlaceBy {
    const Place* place;
    Nearest nearest;
};
[[nodiscard]] std::vector<PlaceBy> places_by(const geo::Line& path, const std::vector<Place>& places,
                                             core::Metres reach);

}  // namespace roostward::activity
