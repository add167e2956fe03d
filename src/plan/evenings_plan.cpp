#include "roostward/plan/evenings_plan.hpp"

#include <utility>

#include "evenings_parts.hpp"
#include "matching.hpp"
#include "roostward/evenings/teams.hpp"
#include "roostward/geo/shape.hpp"
#include "roostward/plan/plan.hpp"

namespace roostward::plan {

namespace {

evenings::Asked asked_of(const Plan& plan, const evenings::ToCome& to_come,
                         const evenings::LocalClock& clock) {
    evenings::Asked asked = asked_of(plan);
    asked.settings = to_come.settings;
    asked.teams = to_come.teams;
    for (const evenings::EveningToCome& evening : to_come.evenings) {
        auto& hours = asked.evenings.emplace_back();
        for (const evenings::Team& team : to_come.teams)
            hours.push_back(evenings::hours_of(team, evening.evening, {evening.begin, evening.end}, clock));
    }
    return asked;
}

void take(evenings::Posts posts, evenings::ToCome& to_come) {
    to_come.places = std::move(posts.places);
    for (std::size_t e = 0; e < to_come.evenings.size(); ++e)
        to_come.evenings[e].rounds = std::move(posts.rounds[e]);
    to_come.share_before = posts.share_before;
    to_come.share_after = std::move(posts.share_after);
    to_come.unwatched_toward = posts.unwatched_toward;
    to_come.unwatched_trees = posts.unwatched_trees;
    to_come.sites = std::move(posts.sites);
    to_come.findings = std::move(posts.findings);
}

}  // namespace

EveningsPlan plan_evenings(siting::Settings settings, siting::Inputs inputs, const EveningsAsked& asked,
                           core::Threads threads) {
    EveningsPlan all;
    GroundForPeople people{std::move(inputs.paths), std::move(inputs.stations), std::move(inputs.keep_out)};
    settings.ranking_only = true;
    const std::optional<survey::Survey> in_vain = watched_in_vain(settings, inputs);
    Plan plan = make_plan(std::move(settings), std::move(inputs), threads);
    all.verdicts = before_watching(plan.candidates);

    evenings::ToCome& to_come = all.to_come;
    to_come.settings = asked.settings;
    to_come.teams = evenings::teams_of(asked.settings, asked.ask.teams);
    evenings::Dates dates =
        evenings::dates_of(asked.ask, asked.settings,
                           {plan.middle, plan.settings.profile, plan.settings.survey.hours, asked.clock});
    to_come.evenings = std::move(dates.evenings);
    to_come.spare = std::move(dates.spare);
    evenings::KnownTrees known = known_of(plan, all.verdicts, threads);
    if (in_vain) known = evenings::watched_in_vain(std::move(known), *in_vain);
    to_come.trees = known.trees.size();
    take(evenings::choose_posts(ground_of(plan.surroundings, people), known,
                                asked_of(plan, to_come, asked.clock), threads),
         to_come);
    all.paths = std::move(people.paths);
    all.keep_out = std::move(people.keep_out);

    all.middle = plan.middle;
    all.middle_in_plane = plan.middle_in_plane;
    all.meridian_convergence = plan.meridian_convergence;
    all.counts = std::move(plan.counts);
    all.findings = std::move(plan.findings);
    all.findings.insert(all.findings.end(), to_come.findings.begin(), to_come.findings.end());
    all.checks = std::move(plan.checks);
    all.files = std::move(plan.files);
    all.trees = std::move(plan.trees);
    all.surroundings = std::move(plan.surroundings);
    all.planning_crs = std::move(plan.planning_crs);
    all.settings = std::move(plan.settings);
    return all;
}

}  // namespace roostward::plan
