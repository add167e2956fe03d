#include "roostward/plan/next_evening.hpp"

#include <algorithm>
#include <chrono>
#include <utility>
#include <vector>

#include "evenings_parts.hpp"
#include "roostward/core/error.hpp"
#include "roostward/plan/plan.hpp"

namespace roostward::plan {

namespace {

constexpr std::size_t most_teams = 6;

std::vector<const survey::Watch*> stations_of_the_last_evening(const survey::Survey& survey) {
    std::vector<const survey::Watch*> stations;
    for (const survey::Watch& watch : survey.watches)
        if (watch.path.size() == 1 && watch.evening == survey.evenings.back()) stations.push_back(&watch);
    return stations;
}

/// As many as watched at the same time.
std::size_t teams_of(const std::vector<const survey::Watch*>& stations) {
    std::size_t most = 0;
    for (const survey::Watch* at : stations) {
        const auto together = std::ranges::count_if(stations, [&](const survey::Watch* other) {
            return other->start <= at->start && at->start < other->end;
        });
        most = std::max(most, static_cast<std::size_t>(together));
    }
    return std::min(most, most_teams);
}

/// The middle one of how far was seen.
core::Metres farthest_of(const std::vector<const survey::Watch*>& stations) {
    std::vector<core::Metres> ranges;
    for (const survey::Watch* station : stations)
        ranges.push_back(station->range);
    const auto middle = ranges.begin() + static_cast<std::ptrdiff_t>(ranges.size() / 2);
    std::ranges::nth_element(ranges, middle);
    return *middle * 2.0;
}

evenings::Stretch a_week_later(const std::vector<const survey::Watch*>& stations) {
    evenings::Stretch all{stations.front()->start, stations.front()->end};
    for (const survey::Watch* station : stations) {
        all.begin = std::min(all.begin, station->start);
        all.end = std::max(all.end, station->end);
    }
    return {all.begin + std::chrono::weeks(1), all.end + std::chrono::weeks(1)};
}

}  // namespace

std::optional<NextEvening> next_evening(const Plan& plan, core::Threads threads) {
    if (plan.survey.even_effort()) return std::nullopt;
    const auto stations = stations_of_the_last_evening(plan.survey);
    if (stations.empty()) return std::nullopt;
    const evenings::KnownTrees known = known_of(plan, before_watching(plan.candidates), threads);
    if (known.trees.empty()) return std::nullopt;
    evenings::Team team;
    team.farthest_seen = farthest_of(stations);
    const std::size_t teams = teams_of(stations);
    evenings::Asked asked = asked_of(plan);
    asked.teams.assign(teams, team);
    asked.evenings.emplace_back(teams, a_week_later(stations));
    const GroundForPeople anywhere;
    try {
        return NextEvening{
            teams, evenings::choose_posts(ground_of(plan.surroundings, anywhere), known, asked, threads)};
    } catch (const core::Error& nowhere) {
        if (nowhere.fault() != core::Fault::inputs) throw;
        return std::nullopt;
    }
}

}  // namespace roostward::plan
