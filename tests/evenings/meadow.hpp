#pragma once

#include <optional>
#include <vector>

#include "roostward/evenings/choose_posts.hpp"

namespace roostward::evenings {

/// Ground as wanted, with nothing on it but what a test puts there.
struct Meadow {
    std::vector<geo::Polygon> allowed_area;
    std::vector<geo::Line> paths;
    core::Records<survey::Station> stations;
    std::vector<geo::Polygon> keep_out;
    trees::Features roads, water;
    std::optional<core::Raster> canopy_height, ground_height;
    std::vector<core::PlanePoint> stems;

    [[nodiscard]] Ground ground() const {
        return {allowed_area, paths, stations, keep_out, roads, water, canopy_height, ground_height};
    }
    /// Nobody has watched any of the stems.
    [[nodiscard]] KnownTrees known() const {
        KnownTrees known;
        for (std::size_t i = 0; i < stems.size(); ++i) {
            TreeKnown& tree = known.trees.emplace_back();
            tree.tree = i;
            tree.stem = stems[i];
        }
        return known;
    }
    /// Stations at these places, named by their number.
    void stand_at(const std::vector<core::PlanePoint>& places) {
        stations = {"stations.csv", "stations", {}, places.size()};
        for (std::size_t i = 0; i < places.size(); ++i)
            stations.rows.push_back({i + 1, places[i], std::to_string(i + 1)});
    }
    static geo::Polygon square(core::PlanePoint corner, double side) {
        const double w = corner.easting, s = corner.northing, e = w + side, n = s + side;
        return {{{w, s}, {e, s}, {e, n}, {w, n}, {w, s}}, {}};
    }
};

/// Evenings a week apart from 1 June 2031 on, 90 minutes from 20:00 UTC, by teams that see 80 m at any light.
inline Asked asked_for(std::size_t evenings, std::size_t teams, std::optional<std::size_t> posts = {}) {
    Asked asked;
    asked.settings.posts = posts;
    Team team;
    team.seen_by = "thermal";
    team.farthest_seen = core::Metres(80.0);
    asked.teams.assign(teams, team);
    for (std::size_t e = 0; e < evenings; ++e) {
        const core::Instant begin = std::chrono::sys_days(std::chrono::year(2031) / 6 / 1) +
                                    std::chrono::days(7 * static_cast<int>(e)) + std::chrono::hours(20);
        asked.evenings.emplace_back(teams, Stretch{begin, begin + std::chrono::minutes(90)});
    }
    asked.middle = {core::Degrees(0.0), core::Degrees(51.5)};
    return asked;
}

}  // namespace roostward::evenings
