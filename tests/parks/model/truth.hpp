#pragma once

#include <span>
#include <vector>

#include "parks/model/park.hpp"

namespace roostward::parks {

/// Foraging flights an hour in the whole park.
inline constexpr double foraging_per_hour = 45.0;

/// All flights of one evening, for `hours` hours, in no order of time.
[[nodiscard]] std::vector<geo::Line> draw_evening(std::span<const Route> routes, double hours,
                                                  double evening_sd, core::RandomStream& random);

/// Length of the piece from a to b that lies within `radius` of the middle.
[[nodiscard]] double length_within(core::PlanePoint a, core::PlanePoint b, core::PlanePoint middle,
                                   double radius);

/// One value a tree, per hour: the mean of `evenings` evenings of one hour.
struct FlightNearTrees {
    std::vector<double> metres;   ///< flown within 10 m
    std::vector<double> flights;  ///< whose path comes within 20 m, each once
};
[[nodiscard]] FlightNearTrees flight_near_trees(std::span<const Route> routes,
                                                std::span<const ParkTree> trees, std::size_t evenings,
                                                double evening_sd, core::RandomStream& random);

}  // namespace roostward::parks
