#pragma once

#include "parks/model/park.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::parks {

/// How people write down the same flights, noticed from the same stations.
enum class Way {
    with_bearings,        ///< as the park has them: a place and a bearing each
    without_bearings,     ///< a place each
    from_the_station,     ///< distance (15 % off, to 5 m) and one of 16 compass points from the station; a
                          ///< bearing
    squares_and_compass,  ///< the middle of a square of 25 m, the bearing as one of 16 compass points
    squares,              ///< the middle of a square of 25 m
    /// Counts a watch: a tally for each route, "mostly along it", of the passes that lie nearer to it than 30
    /// m and to no other route; the rest as a tally without a route. Routes are drawn by a point every 80 m,
    /// 10 m off (root mean square).
    tallies,
    recorder  ///< heard somewhere in view of the station
};

/// What is left of the flights when they are written down so, matched into evenings. Reads the routes for
/// sketches only. The same for the same seed.
[[nodiscard]] survey::Survey survey_written(const Park& park, Way way, std::uint64_t seed);

}  // namespace roostward::parks
