#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "roostward/evenings/teams.hpp"
#include "roostward/plan/evenings_plan.hpp"

namespace roostward::testing {

inline core::Instant at(int day, int hour, int minute) {
    return core::Instant(std::chrono::sys_days(std::chrono::year(2026) / 6 / day) + std::chrono::hours(hour) +
                         std::chrono::minutes(minute));
}

inline evenings::Round round_of(std::size_t team, int day, std::vector<std::size_t> places) {
    evenings::Round round{team, {}, core::Metres(120.0)};
    for (std::size_t i = 0; i < places.size(); ++i) {
        const int start = 21 * 60 + 30 * static_cast<int>(i);
        round.posts.push_back({places[i],
                               at(day, 0, start),
                               at(day, 0, start + 25),
                               i == 0 ? std::optional<survey::FieldOfView>()
                                      : survey::FieldOfView{core::Degrees(225.0), core::Degrees(120.0)},
                               core::Metres(40.0),
                               {evenings::Because::new_ground, 11, {}}});
    }
    return round;
}

/// Two teams on two evenings, three places, a tree that could hold a box and one that could not.
inline plan::EveningsPlan two_evenings() {
    plan::EveningsPlan plan;
    plan.settings.site_name = "Mill <Park>";
    plan.planning_crs = {"EPSG:32630"};
    plan.middle_in_plane = {500100.0, 5800100.0};
    plan.trees.rows.resize(2);
    plan.trees.rows[0].id = "A1";
    plan.trees.rows[0].stem = {500050.0, 5800050.0};
    plan.trees.rows[1].id = "A2";
    plan.trees.rows[1].stem = {500350.0, 5800050.0};
    plan.verdicts.resize(2);
    plan.verdicts[1].state = trees::State::ruled_out;
    plan.surroundings.water = {"water.geojson", {{{}, {{{500000.0, 5800020.0}, {500400.0, 5800020.0}}}, {}}}};
    evenings::ToCome& to_come = plan.to_come;
    to_come.settings.leader = "R.K.";
    to_come.settings.gate_closes = std::chrono::minutes(22 * 60 + 30);
    to_come.teams = evenings::teams_of(to_come.settings, 2);
    to_come.places = {
        {{500040.0, 5800040.0}, {}}, {{500140.0, 5800140.0}, "oak"}, {{500240.0, 5800240.0}, {}}};
    for (const int day : {12, 19})
        to_come.evenings.push_back({{std::chrono::year(2026) / 6 / day},
                                    at(day, 20, 30),
                                    at(day, 20, 15),
                                    at(day, 22, 0),
                                    day > 12,
                                    core::Hours(48.0),
                                    {round_of(0, day, {0, 1}), round_of(1, day, {2})}});
    to_come.spare.push_back(
        {{std::chrono::year(2026) / 6 / 26}, at(26, 20, 30), at(26, 20, 15), at(26, 22, 0)});
    to_come.trees = 1;
    to_come.share_after = {0.4, 0.75};
    to_come.unwatched_toward = core::Degrees(90.0);
    to_come.unwatched_trees = 7;
    return plan;
}

}  // namespace roostward::testing
