#pragma once

#include <chrono>
#include <string>
#include <utility>
#include <vector>

#include "roostward/survey/survey.hpp"

/// Small sets of notes for the tests of matching.
namespace roostward::survey::notes {

inline core::Date june(unsigned day) {
    return {std::chrono::year(2026), std::chrono::month(6), std::chrono::day(day)};
}

inline core::Instant at(unsigned day, int hour, int minute) {
    return core::Instant(std::chrono::sys_days(june(day))) + std::chrono::hours(hour) +
           std::chrono::minutes(minute);
}

/// From 21:00 to 22:00, with a range of 40 m.
inline Watch watch(std::string name, core::PlanePoint station, unsigned day) {
    Watch watch;
    watch.row = 2;
    watch.name = std::move(name);
    watch.path = {station};
    watch.start = at(day, 21, 0);
    watch.end = at(day, 22, 0);
    watch.evening = {june(day)};
    watch.range = core::Metres(40.0);
    return watch;
}

inline Pass pass(std::string seen_from, core::PlanePoint place, unsigned day, int minute) {
    Pass pass;
    pass.row = 7;
    pass.watch = std::move(seen_from);
    pass.position = place;
    pass.time = at(day, 21, minute);
    pass.evening = {june(day)};
    return pass;
}

inline Tally tally(std::string seen_from, double count) {
    Tally tally;
    tally.row = 3;
    tally.watch = std::move(seen_from);
    tally.count = count;
    return tally;
}

struct Notes {
    core::Records<Pass> passes{"passes.csv", "passes", {}, 0};
    core::Records<Track> tracks{"", "tracks", {}, 0};
    core::Records<Tally> tallies{"tallies.csv", "tallies", {}, 0};
    core::Records<Watch> watches{"watches.csv", "watches", {}, 0};
    core::Records<Route> routes{"routes.geojson", "routes", {}, 0};
    Settings settings;

    [[nodiscard]] Matched match() const {
        return survey::match({passes, tracks, tallies, watches, routes}, {}, settings);
    }
};

inline std::vector<std::string> kinds(const Matched& seen) {
    std::vector<std::string> kinds;
    for (const auto& finding : seen.findings)
        kinds.push_back(finding.kind);
    return kinds;
}

}  // namespace roostward::survey::notes
