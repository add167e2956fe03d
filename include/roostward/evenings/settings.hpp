#pragma once

#include <chrono>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "roostward/core/time.hpp"
#include "roostward/core/units.hpp"

namespace roostward::evenings {

/// Minutes after the midnight that an evening begins with, for a time that the clock shows in it: an evening
/// runs from noon to noon, so a time before noon is of the next day.
[[nodiscard]] constexpr std::chrono::minutes in_evening(std::chrono::minutes after_midnight) {
    using std::chrono::hours;
    return after_midnight < hours(12) ? after_midnight + hours(24) : after_midnight;
}

/// People who go round together, where they differ from the others. `from` and `until`: minutes after
/// midnight by the local clock.
struct Team {
    std::string name;
    std::string seen_by;                        ///< eye, ear, night-vision, thermal; empty: as the others
    std::optional<core::Metres> farthest_seen;  ///< empty: as the others
    std::optional<std::chrono::minutes> from, until;
};

/// What the site file says of evenings to come, `[evenings]`.
struct Settings {
    std::vector<std::chrono::weekday> days;  ///< on which people have time; empty: any
    std::chrono::days every{7};              ///< at least, from one evening to the next
    std::optional<std::size_t> posts;  ///< places a team takes in turn in one evening, 1–6; empty: the best
    std::size_t team_size = 2;
    std::string seen_by = "eye";
    std::optional<core::Metres> farthest_seen;  ///< empty: by what they see with, and by the light
    double walk_m_per_min = 50.0;
    std::size_t spare = 1;                            ///< evenings kept for bad weather
    std::optional<std::chrono::minutes> gate_closes;  ///< after midnight, local clock
    std::string permission_from, leader;
    std::vector<Team> teams;  ///< empty, or those that are named; further teams are as the settings say
};

/// What the command line asks for.
struct Ask {
    core::Date start;
    std::size_t count = 1;  ///< of evenings, spare ones not counted
    std::size_t teams = 1;
    bool anyway = false;  ///< out of the active season too
};

}  // namespace roostward::evenings
