#include "screening.hpp"

#include <utility>

#include "plan_parts.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/geo/shape.hpp"
#include "roostward/siting/canopy_at_stems.hpp"
#include "roostward/siting/ways_in.hpp"
#include "roostward/trees/height_doubts.hpp"

namespace roostward::plan {

namespace {

/// Of the ground where boxes may hang, else of the trees, of which there are some.
core::Box ground_of(const siting::Inputs& inputs) {
    geo::Line points;
    for (const geo::Polygon& polygon : inputs.allowed_area)
        points.insert(points.end(), polygon.outer.begin(), polygon.outer.end());
    if (points.empty())
        for (const trees::Tree& tree : inputs.trees.rows)
            points.push_back(tree.stem);
    return geo::box_of(points).value_or(core::Box{});
}

/// Watches alone say where somebody stood, and not whether anything flew.
core::Findings about_watches(const core::Records<survey::Watch>& watches) {
    if (watches.rows.empty()) return {};
    return {{core::Severity::note,
             {watches.file, watches.layer, {}, {}},
             "watches without passes",
             {},
             core::said("finding.watches_without_passes")}};
}

/// Nobody watched: what could hold a box is not watched, and nothing else is said of it.
std::vector<siting::Candidate> unwatched(std::vector<trees::Verdict> verdicts) {
    std::vector<siting::Candidate> candidates(verdicts.size());
    for (std::size_t i = 0; i < verdicts.size(); ++i) {
        candidates[i].verdict = std::move(verdicts[i]);
        trees::Verdict& verdict = candidates[i].verdict;
        if (verdict.state != trees::State::can_be_chosen) continue;
        verdict.state = trees::State::not_watched;
        verdict.reasons.push_back(
            {"not watched", verdict.state, {}, {}, {}, core::said("reason.not_watched_yet"), {}});
    }
    return candidates;
}

}  // namespace

bool nothing_seen(const siting::Inputs& inputs) {
    const auto blank = [](const auto& records) { return records.read == 0 && records.rows.empty(); };
    return blank(inputs.passes) && blank(inputs.tracks) && blank(inputs.tallies);
}

Plan screen(siting::Settings settings, siting::Inputs inputs, core::Threads threads) {
    survey::Matched seen;
    sort_roosts(inputs, seen, settings.survey);
    const Middle middle = middle_of(ground_of(inputs), inputs.planning_crs);
    settings.ranking_only = false;
    Plan plan;
    plan.screening = true;
    plan.mounting = siting::mounting_of(settings, hemisphere_of(middle.place));
    settings.suitability.entrance = plan.mounting.height;
    plan.surroundings = surroundings_of(inputs, seen, {});
    plan.candidates = unwatched(trees::judge(inputs.trees, plan.surroundings, settings.suitability, threads));
    siting::measure_canopy(plan.candidates, inputs.trees, plan.surroundings.canopy_height, settings, threads);
    siting::measure_distances(plan.candidates, inputs.trees, plan.surroundings, settings.suitability,
                              threads);
    plan.middle = middle.place;
    plan.middle_in_plane = middle.in_plane;
    plan.meridian_convergence = middle.meridian_convergence;
    plan.checks = trees::what_was_checked(inputs.trees, plan.surroundings);
    plan.counts = counts_after(std::move(inputs.counts), seen);
    plan.findings = joined(
        std::move(inputs.findings), std::move(seen.findings), about_watches(inputs.watches),
        trees::height_doubts(inputs.trees, plan.surroundings.canopy_height, settings.suitability, threads));
    tell_climate(settings, plan.findings);
    plan.files = std::move(inputs.files);
    plan.trees = std::move(inputs.trees);
    plan.planning_crs = std::move(inputs.planning_crs);
    plan.settings = std::move(settings);
    return plan;
}

}  // namespace roostward::plan
