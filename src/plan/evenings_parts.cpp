#include "evenings_parts.hpp"

namespace roostward::plan {

std::vector<trees::Verdict> before_watching(const std::vector<siting::Candidate>& candidates) {
    std::vector<trees::Verdict> verdicts;
    verdicts.reserve(candidates.size());
    for (const siting::Candidate& candidate : candidates) {
        verdicts.push_back(candidate.verdict);
        trees::State& state = verdicts.back().state;
        if (state == trees::State::not_watched) state = trees::State::can_be_chosen;
    }
    return verdicts;
}

evenings::KnownTrees known_of(const Plan& plan, const std::vector<trees::Verdict>& verdicts,
                              core::Threads threads) {
    const trees::Settings& suitability = plan.settings.suitability;
    if (plan.screening) return evenings::unwatched_trees(verdicts, plan.trees, suitability);
    return evenings::known_trees(plan.candidates, plan.trees, suitability, plan.survey, plan.bandwidth,
                                 plan.mean_rate, threads);
}

evenings::Asked asked_of(const Plan& plan) {
    evenings::Asked asked;
    asked.middle = plan.middle;
    asked.meridian_convergence = plan.meridian_convergence;
    asked.min_watch = plan.settings.activity.min_watch;
    asked.spacing = plan.settings.choice.spacing;
    asked.sites = plan.settings.choice.sites;
    return asked;
}

evenings::Ground ground_of(const trees::Surroundings& around, const GroundForPeople& people) {
    return {around.allowed_area, people.paths, people.stations,      people.keep_out,
            around.roads,        around.water, around.canopy_height, around.ground_height};
}

}  // namespace roostward::plan
