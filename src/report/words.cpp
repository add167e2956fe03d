#include "roostward/report/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "roostward/canopy/round_view.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/report/choice_words.hpp"
#include "roostward/report/flight_words.hpp"
#include "roostward/report/hanging_words.hpp"
#include "roostward/report/tally.hpp"
#include "roostward/report/text_block.hpp"

namespace roostward::report {

namespace {

/// What the canopy model says of the way in; empty where there is no model.
std::string way_in(const plan::Plan& plan, const siting::Candidate& candidate) {
    if (!plan.surroundings.canopy_height) return {};
    if (siting::line_beside(candidate) == nullptr) return core::said("why.no_line");
    if (!candidate.approach_clear) return {};
    const siting::Profile& profile = plan.settings.profile;
    const core::Metres clear = *candidate.approach_clear, wanted = profile.clear_approach.value;
    const std::string free = core::said(clear < canopy::clear_looked ? "why.free" : "why.free_or_more",
                                        {{"metres", std::floor(clear.value())}});
    return core::said(clear < wanted ? "why.way_in_short" : "why.way_in",
                      {{"line", plan.flight_lines[candidate.flight_line->line].id},
                       {"free", free},
                       {"wanted", wanted.value()}});
}

/// The drop below the entrance where it is too short and the way in is known.
std::string drop(const plan::Plan& plan, const siting::Candidate& candidate) {
    const core::Metres wanted = plan.settings.profile.clear_drop.value;
    const bool told = plan.surroundings.canopy_height && siting::line_beside(candidate) != nullptr &&
                      candidate.approach_clear && candidate.drop_clear;
    if (!told || *candidate.drop_clear >= wanted) return {};
    return core::said("why.drop_short",
                      {{"metres", candidate.drop_clear->value()}, {"wanted", wanted.value()}});
}

/// Which of several wishes the first box follows; empty where they agree.
std::string traded(const plan::Plan& plan, const siting::Candidate& candidate) {
    const siting::Facings& facings = candidate.facings.value();
    const std::string first = point_in_words(facings.boxes.front());
    std::string conflict;
    const siting::LineOffset* const line = siting::line_beside(candidate);
    if (line != nullptr && line->offset > core::Metres(0.0)) {
        const core::Degrees way_in = core::normalised(line->toward + plan.meridian_convergence);
        const siting::FacingArc& sunny = plan.mounting.sunny;
        if (point_in_words(way_in) != first)
            conflict = core::said("facing.way_and_sun", {{"way_in", point_in_words(way_in)},
                                                         {"sun_from", point_in_words(sunny.from)},
                                                         {"sun_to", point_in_words(sunny.to)}});
    }
    const auto against = [&](bool turned, std::string_view why) {
        if (turned)
            conflict +=
                (conflict.empty() ? "" : "; ") + core::said(why, {{"point", point_in_words(facings.wished)}});
    };
    against(facings.off_the_road, "facing.would_see_road");
    against(facings.off_the_heat, "facing.would_be_hot");
    if (conflict.empty()) return {};
    conflict.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(conflict.front())));
    return core::said("facing.conflict", {{"conflict", conflict}, {"first", first}});
}

/// A box told of by its tree hangs where the tree stands.
std::string about_boxes(const siting::Candidate& candidate) {
    constexpr core::Metres on_it{1.0};
    return candidate.box_distance && *candidate.box_distance < on_it ? core::said("why.box_hangs") : "";
}

std::string about_shade(const siting::Candidate& candidate) {
    const auto& light = candidate.verdict.light;
    return light && light->shaded ? core::said("why.shaded_from_lamp") : "";
}

/// What the place takes off the score, and what most of it; empty where it takes less than one in a hundred.
std::string about_fitness(const siting::Candidate& candidate) {
    if (!candidate.fitness) return {};
    const double percent = std::round(100.0 * (1.0 - candidate.kept.middle));
    if (percent < 1.0) return {};
    const auto& parts = candidate.fitness->parts;
    const auto worst =
        std::ranges::max_element(parts, {}, [](const siting::FitnessPart& part) { return part.takes(); }) -
        parts.begin();
    const std::array<std::string_view, siting::fitness_parts> by{
        candidate.approach_clear ? "why.takes.way_in" : "why.takes.unknown_way_in",
        candidate.sun ? "why.takes.sun" : "why.takes.unknown_sun", "why.takes.light", "why.takes.road"};
    return core::said("why.place_takes",
                      {{"percent", percent}, {"by", core::said(by.at(static_cast<std::size_t>(worst)))}});
}

/// Whether tallies tell of a tenth of all that was flown, or more.
bool tallies_matter(const survey::Survey& survey) {
    double all = 0.0, tallied = 0.0;
    for (const survey::Flight& flight : survey.flights) {
        all += flight.metres();
        if (flight.noted_in == survey::NotedIn::tallies) tallied += flight.metres();
    }
    return tallied > 0.0 && tallied >= 0.1 * all;
}

}  // namespace

std::string point_in_words(core::Degrees bearing) {
    return core::shown("point", siting::compass_point(bearing));
}

double per_hectare(double flight_density) {
    return 1e4 * flight_density;
}

std::string why(const plan::Plan& plan, std::size_t tree) {
    const auto& candidate = plan.candidates[tree];
    const std::string place = in_a_row({flight_there(candidate), way_in(plan, candidate),
                                        drop(plan, candidate), about_boxes(candidate), about_shade(candidate),
                                        about_fitness(candidate), candidate.verdict.neighbours});
    if (!candidate.site) return in_a_row({place, why_not_chosen(plan, tree)});
    return in_a_row({place, kind_of_box(candidate), traded(plan, candidate), why_chosen(candidate)});
}

std::string nobody_checked(const std::vector<trees::Check>& checks) {
    std::string matters;
    for (const auto& check : checks)
        if (!check.checked) matters += (matters.empty() ? "" : ", ") + core::shown("matter", check.matter);
    return matters.empty() ? "" : core::said("nobody_checked", {{"matters", matters}});
}

std::vector<Caution> cautions() {
    std::vector<Caution> all;
    for (const std::string_view matter :
         {"tree", "height", "electricity", "night", "bats", "law", "season", "hygiene", "honesty"})
        all.push_back({matter, core::said(fmt::format("caution.{}", matter))});
    return all;
}

std::string cautions_in_short(std::string_view all_of_them) {
    return core::said("cautions_in_short", {{"all_of_them", all_of_them}});
}

std::vector<std::string> weak_points(const plan::Plan& plan) {
    constexpr std::size_t enough_evenings = 3;
    std::vector<std::string> points;
    const std::size_t evenings = plan.survey.evenings.size();
    if (evenings < enough_evenings) points.push_back(core::said_for(evenings, "weak.evenings"));
    if (plan.survey.even_effort()) points.push_back(core::said("weak.no_watches"));
    if (tallies_matter(plan.survey)) points.push_back(core::said("weak.tallies"));
    const auto& known = plan.surfaces.flight_density.known;
    const std::size_t not_watched = trees_not_watched(plan);
    if (not_watched > 0 && !known.empty())
        points.push_back(
            core::said("weak.not_watched", {{"count", not_watched}, {"all", plan.candidates.size()}}));
    if (!plan.survey.evenings.empty()) {
        const auto first = std::chrono::sys_days(plan.survey.evenings.front().date);
        const auto last = std::chrono::sys_days(plan.survey.evenings.back().date);
        if (last - first < std::chrono::days(60))
            points.push_back(
                core::said("weak.one_season", {{"first", core::to_text(plan.survey.evenings.front())},
                                               {"last", core::to_text(plan.survey.evenings.back())}}));
    }
    return points;
}

}  // namespace roostward::report
