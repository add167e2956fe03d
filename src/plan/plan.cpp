#include "roostward/plan/plan.hpp"

#include <algorithm>
#include <utility>

#include "roostward/activity/bent_flights.hpp"
#include "roostward/activity/evening_surfaces.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/siting/canopy_at_stems.hpp"
#include "roostward/siting/choice.hpp"
#include "roostward/siting/flight_figures.hpp"
#include "roostward/siting/line_offsets.hpp"
#include "roostward/siting/ways_in.hpp"
#include "roostward/trees/height_doubts.hpp"

#include "matching.hpp"
#include "plan_parts.hpp"
#include "screening.hpp"
#include "season.hpp"

namespace roostward::plan {

namespace {

/// Enough for a picture the size of a hand.
constexpr std::size_t evening_cells = 8000;

std::vector<core::PlanePoint> stems_of(const trees::Inventory& inventory) {
    std::vector<core::PlanePoint> stems;
    stems.reserve(inventory.rows.size());
    for (const auto& tree : inventory.rows)
        stems.push_back(tree.stem);
    return stems;
}

/// A first look tells nothing of the flight about trees that are ruled out.
std::vector<bool> flight_matters(const std::vector<trees::Verdict>& verdicts,
                                 const siting::Settings& settings) {
    std::vector<bool> matters(verdicts.size(), true);
    if (!settings.ranking_only) return matters;
    for (std::size_t i = 0; i < verdicts.size(); ++i)
        matters[i] = verdicts[i].state != trees::State::ruled_out;
    return matters;
}

/// What is doubtful about the evenings and the climate as a whole.
struct Doubts {
    core::Findings findings;
    std::string out_of_season;
};

Doubts doubts_about(const siting::Settings& settings, const survey::Survey& survey,
                    core::GeographicPoint site) {
    Doubts doubts;
    if (const auto season = out_of_season(survey, settings.profile, site)) {
        doubts.findings.push_back(season->told);
        if (season->all) doubts.out_of_season = season->told.sentence;
    }
    tell_climate(settings, doubts.findings);
    return doubts;
}

}  // namespace

Plan make_plan(siting::Settings settings, siting::Inputs inputs, core::Threads threads) {
    if (nothing_seen(inputs)) return screen(std::move(settings), std::move(inputs), threads);
    survey::Matched seen = match_inputs(settings, inputs);
    sort_roosts(inputs, seen, settings.survey);
    std::vector<survey::Observer> observers = survey::letter_observers(seen.survey);
    const activity::Bandwidth bandwidth = activity::choose_bandwidth(seen.survey, settings.activity, threads);
    const survey::Survey flown = activity::bend_flights(seen.survey, threads);
    const activity::FlightDensity density(flown, bandwidth, settings.activity);
    activity::Surfaces surfaces = density.surfaces(threads);
    auto lines = activity::find_flight_lines(flown, bandwidth, settings.activity, threads);

    const Middle middle = middle_of(surfaces.flight_density.grid.box(), inputs.planning_crs);
    const siting::Mounting mounting = siting::mounting_of(settings, hemisphere_of(middle.place));
    trees::Surroundings around = surroundings_of(inputs, seen, lines);
    settings.suitability.entrance = mounting.height;

    const trees::Judge judge(inputs.trees, around, settings.suitability);
    std::vector<trees::Verdict> verdicts = judge.verdicts(threads);
    const activity::WatchedPoints seen_at =
        density.where_watched(stems_of(inputs.trees), flight_matters(verdicts, settings), threads);
    auto candidates =
        siting::candidates_of(std::move(verdicts), seen_at.activity, settings.activity.min_watch, threads);
    siting::measure_canopy(candidates, inputs.trees, around.canopy_height, settings, threads);
    siting::measure_line_offsets(candidates, inputs.trees, lines, threads);
    siting::measure_distances(candidates, inputs.trees, around, settings.suitability, threads);
    const siting::Hanging hanging{mounting, middle.place.latitude, middle.meridian_convergence,
                                  settings.suitability.unknown_crown_radius, settings.road_in_view};
    siting::measure_ways_in(candidates, inputs.trees, around, hanging, threads);
    siting::give_flight_figures(candidates, inputs.trees, flown, settings, threads);
    const core::Findings unmeasured = siting::measure_fitness(candidates, settings);
    siting::score_and_rank(candidates, inputs.trees);
    const core::Findings wishes = siting::heed_wishes(candidates, inputs.trees, settings);
    const siting::Choice choice = siting::choose(candidates, inputs.trees, settings.choice);

    const siting::Evidenced data{inputs.trees, flown, density, seen_at.evenings};
    const siting::Certainty certainty = siting::how_sure(candidates, data, settings, threads);

    Plan plan;
    if (!settings.ranking_only) {
        plan.what_if = siting::what_if(candidates, data, {judge, around, hanging, lines}, settings, threads);
        plan.reserves = siting::reserves_of(candidates, inputs.trees, settings.choice);
        plan.evening_surfaces =
            activity::evening_surfaces(flown, bandwidth, settings.activity,
                                       activity::known_box(surfaces.flight_density), evening_cells, threads);
    }
    plan.surfaces = std::move(surfaces);
    plan.flight_lines = std::move(lines);
    plan.middle = middle.place;
    plan.middle_in_plane = middle.in_plane;
    plan.meridian_convergence = middle.meridian_convergence;
    plan.choice = choice;
    plan.certainty = certainty;
    plan.mounting = mounting;
    plan.checks = trees::what_was_checked(inputs.trees, around);
    plan.mean_rate = density.mean_rate();
    plan.reference_density = siting::reference_density(candidates);
    plan.ranked = siting::in_order_of_rank(candidates);
    plan.chosen = siting::in_order_of_site(candidates);
    plan.worth_settling = siting::worth_settling(candidates, settings.choice.sites);
    plan.candidates = std::move(candidates);
    plan.bandwidth = bandwidth;
    plan.counts = counts_after(std::move(inputs.counts), seen);
    const Doubts doubts = doubts_about(settings, seen.survey, middle.place);
    plan.out_of_season = doubts.out_of_season;
    plan.findings =
        joined(std::move(inputs.findings), std::move(seen.findings), doubts.findings,
               activity::doubts_of(bandwidth), unmeasured, wishes,
               trees::height_doubts(inputs.trees, around.canopy_height, settings.suitability, threads));
    plan.files = std::move(inputs.files);
    plan.survey = std::move(seen.survey);
    plan.observers = std::move(observers);
    plan.surroundings = std::move(around);
    plan.trees = std::move(inputs.trees);
    plan.planning_crs = std::move(inputs.planning_crs);
    plan.settings = std::move(settings);
    if (!plan.settings.ranking_only) plan.next_evening = next_evening(plan, threads);
    return plan;
}

Checked check_inputs(const siting::Settings& settings, siting::Inputs inputs, core::Threads threads) {
    survey::Matched seen = nothing_seen(inputs) ? survey::Matched() : match_all(settings, inputs);
    sort_roosts(inputs, seen, settings.survey);
    Checked checked;
    checked.site_name = settings.site_name;
    checked.screening = nothing_seen(inputs);
    const auto place = place_of(inputs);
    Doubts doubts;
    if (place)
        doubts = doubts_about(settings, seen.survey, *place);
    else
        tell_climate(settings, doubts.findings);
    checked.out_of_season = doubts.out_of_season;
    checked.findings =
        joined(std::move(inputs.findings), std::move(seen.findings), doubts.findings,
               trees::height_doubts(inputs.trees, inputs.canopy_height, settings.suitability, threads));
    checked.counts = counts_after(std::move(inputs.counts), seen);
    checked.checks = trees::what_was_checked(inputs.trees, surroundings_of(inputs, seen, {}));
    checked.files = std::move(inputs.files);
    checked.survey = std::move(seen.survey);
    checked.trees = std::move(inputs.trees);
    return checked;
}

}  // namespace roostward::plan
