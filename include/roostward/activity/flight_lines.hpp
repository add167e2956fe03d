#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "roostward/activity/axes.hpp"
#include "roostward/activity/flight_density.hpp"
#include "roostward/survey/records.hpp"

namespace roostward::activity {

/// A route that the evenings show. Behind it stand the flights whose written-down place lies within
/// max(h, 10 m) of it (a track: one of its points).
struct FlightLine {
    std::string id;  ///< "A" for the most used, then "B" …
    geo::Line path;  ///< in the planning plane
    core::Metres length;
    double flight_density = 0.0;         ///< mean along it: metres flown per m² and hour
    std::uint32_t evenings_watched = 0;  ///< along it on average for enough_on_an_evening
    std::uint32_t evenings_used = 0;     ///< of those, with a flight behind it
    std::size_t passes = 0;              ///< flights behind it
    std::optional<Axis> axis;            ///< of their grid bearings; empty where no flight has one
    /// Twice the share of the rarer way along the line: 0 all one way, 1 both ways alike; empty as the axis.
    std::optional<double> two_way;
    std::optional<core::Metres> height;  ///< median of those flights whose height was told
    double steady = 0.0;                 ///< share of re-drawn evenings that show it
};

/// Ridges of the flight density, traced where somebody watched for twice min_watch, without foraging passes,
/// without tallies
/// and with τ of 0.3 h and more; those that stand out from what a constant rate of their surroundings would
/// show by chance, and that three in five re-draws of the evenings show too. Most used first. `passes` tell
/// the heights.
[[nodiscard]] std::vector<FlightLine> find_flight_lines(const survey::Survey& survey,
                                                        const Bandwidth& bandwidth, const Settings& settings,
                                                        core::Threads threads);

}  // namespace roostward::activity
