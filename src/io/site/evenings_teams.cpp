#include "site/evenings_teams.hpp"

#include <algorithm>
#include <chrono>
#include <optional>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/folding.hpp"

namespace roostward::io {

namespace {

constexpr std::array<std::string_view, 5> keys{"name", "seen_by", "farthest_seen_m", "from", "until"};

std::optional<std::chrono::minutes> time_in(const TomlEntry& entry) {
    return entry.given() ? std::optional(entry.time_of_day()) : std::nullopt;
}

evenings::Team team_in(const TomlEntry& entry) {
    entry.allow_only(keys);
    evenings::Team team;
    team.name = entry.at("name").text_or("");
    if (const TomlEntry sense = entry.at("seen_by"); sense.given()) team.seen_by = sense.word(ways_of_seeing);
    if (const TomlEntry sight = entry.at("farthest_seen_m"); sight.given())
        team.farthest_seen = core::Metres(sight.number(farthest_seen_m));
    team.from = time_in(entry.at("from"));
    team.until = time_in(entry.at("until"));
    if (team.from && team.until && evenings::in_evening(*team.until) <= evenings::in_evening(*team.from))
        entry.at("until").fail(core::said("site_file.team_leaves_first"));
    return team;
}

}  // namespace

std::vector<evenings::Team> read_teams(const TomlEntry& entries) {
    std::vector<evenings::Team> teams;
    for (const TomlEntry& entry : entries.tables()) {
        evenings::Team team = team_in(entry);
        const auto has_its_name = [&](const evenings::Team& other) {
            return core::folded(other.name) == core::folded(team.name);
        };
        if (!team.name.empty() && std::ranges::any_of(teams, has_its_name))
            entry.at("name").fail(core::said("site_file.team_named_twice", {{"name", team.name}}));
        teams.push_back(std::move(team));
    }
    return teams;
}

}  // namespace roostward::io
