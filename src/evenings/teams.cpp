#include "roostward/evenings/teams.hpp"

#include <string>

namespace roostward::evenings {

core::Metres usual_sight(std::string_view seen_by) {
    if (seen_by == "thermal") return core::Metres(80.0);
    if (seen_by == "night-vision") return core::Metres(60.0);
    return core::Metres(40.0);
}

std::vector<Team> teams_of(const Settings& settings, std::size_t teams) {
    std::vector<Team> all = settings.teams;
    all.resize(teams);
    for (std::size_t i = 0; i < teams; ++i) {
        Team& team = all[i];
        if (team.name.empty()) team.name = std::to_string(i + 1);
        if (team.seen_by.empty()) {
            team.seen_by = settings.seen_by;
            if (!team.farthest_seen) team.farthest_seen = settings.farthest_seen;
        }
        if (!team.farthest_seen) team.farthest_seen = usual_sight(team.seen_by);
    }
    return all;
}

}  // namespace roostward::evenings
