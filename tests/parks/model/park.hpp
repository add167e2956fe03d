#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "parks/model/route.hpp"
#include "roostward/survey/records.hpp"

namespace roostward::parks {

struct ParkTree {
    core::PlanePoint stem;
    bool suitable = false;
};

/// An invented park whose flights are known, and what a few people wrote down of them on some evenings.
///
/// Two to four routes; 45 foraging flights an hour; 400 trees, a third of them suitable: 140 scattered, 180
/// in six straight avenues (12 m apart), 80 loosely along routes (25 m standard deviation to the side).
///
/// Three stations an evening: the first watches 1.5 hours with a range of 55 m, the second 1.0 with 40 m, the
/// third 0.5 with 30 m, all from 21:00. Every other station that is placed, the first among them, stands near
/// a route (15 m standard deviation), the busier ones more often; none stands within 60 m of the park's edge
/// or 120 m of another. From one evening to the next 15 stations in 100 are moved. A flight at a time within
/// a watch is noticed with the half-normal of its nearest point, and written down once, at a place drawn
/// along its path in proportion to the half-normal there, with 4 m of error on each axis and 15° of bearing
/// error.
///
/// What the specification leaves open (how many trees of each kind, where stations may stand, how often they
/// move, how long routes are) was set so that a random suitable tree and raw counts get what it asks of them.
struct Park {
    std::vector<Route> routes;
    std::vector<ParkTree> trees;
    core::Records<survey::Pass> passes;
    core::Records<survey::Watch> watches;
    /// One a tree: metres flown within 10 m of it per hour, the mean of 60 evenings on which nobody watched.
    std::vector<double> truth;
    /// One a tree, on the same evenings: flights an hour whose path comes within 20 m, each once.
    std::vector<double> true_flights;
};

/// A park around the given routes. The same for the same seed on any machine with the same libm.
[[nodiscard]] Park park_around(std::vector<Route> routes, std::uint64_t seed, std::size_t evenings,
                               double evening_sd = usual_evening_sd);

/// A park with two to four routes.
[[nodiscard]] Park make_park(std::uint64_t seed, std::size_t evenings = 3,
                             double evening_sd = usual_evening_sd);

}  // namespace roostward::parks
