#include "roostward/report/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "roostward/canopy/round_view.hpp"
#include "roostward/report/choice_words.hpp"
#include "roostward/report/hanging_words.hpp"
#include "roostward/report/tally.hpp"

namespace roostward::report {

namespace {

/// What the canopy model says of the way in; empty where there is no model.
std::string way_in(const plan::Plan& plan, const siting::Candidate& candidate) {
    if (!plan.surroundings.canopy_height) return {};
    if (siting::line_beside(candidate) == nullptr)
        return " No flight line runs beside it: from which side they come in is not known.";
    if (!candidate.approach_clear) return {};
    const siting::Profile& profile = plan.settings.profile;
    const core::Metres clear = *candidate.approach_clear, wanted = profile.clear_approach.value;
    const std::string free = fmt::format("free for {:.0f} m{}", std::floor(clear.value()),
                                         clear < canopy::clear_looked ? "" : " or more");
    const std::string& line = plan.flight_lines[candidate.flight_line->line].id;
    std::string text =
        clear < wanted
            ? fmt::format(" In the canopy model the way in from {} is only {}; {:g} m are wanted.", line,
                          free, wanted.value())
            : fmt::format(" In the canopy model the way in from {} is {}: confirm on foot.", line, free);
    const core::Metres drop = profile.clear_drop.value;
    if (candidate.drop_clear && *candidate.drop_clear < drop)
        text += fmt::format(" What grows there leaves a drop of {:.1f} m; {:g} m are wanted.",
                            candidate.drop_clear->value(), drop.value());
    return text;
}

/// Which of several wishes the first box follows; empty where they agree.
std::string traded(const plan::Plan& plan, const siting::Candidate& candidate) {
    const siting::Facings& facings = candidate.facings.value();
    const auto point = [](core::Degrees bearing) { return siting::compass_point(bearing); };
    const std::string_view first = point(facings.boxes.front());
    std::string conflict;
    const siting::LineOffset* const line = siting::line_beside(candidate);
    if (line != nullptr && line->offset > core::Metres(0.0)) {
        const core::Degrees way_in = core::normalised(line->toward + plan.meridian_convergence);
        const siting::FacingArc& sunny = plan.mounting.sunny;
        if (point(way_in) != first)
            conflict = fmt::format("the way in asks for {}, the sun for {} to {}", point(way_in),
                                   point(sunny.from), point(sunny.to));
    }
    const auto against = [&](bool turned, std::string_view why) {
        if (turned)
            conflict +=
                fmt::format("{}{} would {}", conflict.empty() ? "" : "; ", point(facings.wished), why);
    };
    against(facings.off_the_road, "look at a road");
    against(facings.off_the_heat, "be too hot of an afternoon");
    if (conflict.empty()) return {};
    conflict.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(conflict.front())));
    return fmt::format(" {}: the first box faces {}.", conflict, first);
}

/// A box told of by its tree hangs where the tree stands.
std::string about_boxes(const siting::Candidate& candidate) {
    constexpr core::Metres on_it{1.0};
    return candidate.box_distance && *candidate.box_distance < on_it ? " A box hangs on it already." : "";
}

std::string about_shade(const siting::Candidate& candidate) {
    const auto& light = candidate.verdict.light;
    return light && light->shaded ? " Crowns are taken to shade it from a lamp: visit after dark." : "";
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
        candidate.approach_clear ? "a way in that is not free" : "a way in that is not known",
        candidate.sun ? "its sun" : "sun that is not known", "lamp light", "a road"};
    return fmt::format(" The place takes {:.0f} % off its score, most of it by {}.", percent,
                       by.at(static_cast<std::size_t>(worst)));
}

}  // namespace

double per_hectare(double flight_density) {
    return 1e4 * flight_density;
}

double flights_per_hour(double flight_density) {
    return 0.004 * per_hectare(flight_density);
}

std::string why(const plan::Plan& plan, std::size_t tree) {
    const auto& candidate = plan.candidates[tree];
    const auto& seen = candidate.activity;
    const std::string evenings =
        seen.evenings_watched == 0
            ? "watched a little at a time, on no evening for long"
            : fmt::format("flown on {} of {} watched evenings", seen.evenings_used, seen.evenings_watched);
    const std::string text =
        fmt::format("About {:.1f} flights an hour within 20 m; {}, in {:.1f} effective hours.",
                    flights_per_hour(seen.flight_density), evenings, seen.watch_hours.value()) +
        way_in(plan, candidate) + about_boxes(candidate) + about_shade(candidate) + about_fitness(candidate);
    const std::string kind = kind_of_box(candidate);
    return text + (candidate.site ? (kind.empty() ? kind : " " + kind) + traded(plan, candidate) + " " +
                                        why_chosen(candidate)
                                  : " " + why_not_chosen(plan, tree));
}

std::string nobody_checked(const std::vector<trees::Check>& checks) {
    std::string matters;
    for (const auto& check : checks)
        if (!check.checked) matters += (matters.empty() ? "" : ", ") + check.matter;
    return matters.empty() ? "" : "Nobody has checked: " + matters + ". Check before anyone climbs.";
}

const std::vector<Caution>& cautions() {
    static const std::vector<Caution> all{
        {"tree",
         "This list is a desk ranking. A qualified arborist must inspect each tree before anyone climbs or "
         "fixes to it."},
        {"height",
         "Avoid working at height; use a platform or a trained climber. Ladders only for short, light work."},
        {"electricity",
         "Treat every line as live. Distances here are for sorting only; the network owner sets them."},
        {"night", "Never watch alone: check-in time, second phone, torch; landowner told; leave if uneasy."},
        {"bats",
         "Never touch a bat. Bite or scratch: wash with soap and water for 15 minutes and seek urgent care."},
        {"law",
         "Bats and roosts are often protected, even when empty. Opening or moving a box may need a licence."},
        {"season",
         "Do not move, open or clean boxes in breeding or hibernation time, and fix none where birds nest or "
         "young are about. Look for nests and holes first."},
        {"hygiene", "Clean gear between sites; follow the current white-nose protocol."},
        {"honesty",
         "Boxes do not replace old trees. The animals may never use them. Local codes and law come first."},
    };
    return all;
}

std::string cautions_in_short() {
    return "Before anyone climbs: an arborist inspects the tree, every line counts as live. Never touch a "
           "bat. Local "
           "law comes first. All cautions: report.html.";
}

std::vector<std::string> weak_points(const plan::Plan& plan) {
    constexpr std::size_t enough_evenings = 3;
    std::vector<std::string> points;
    const std::size_t evenings = plan.survey.evenings.size();
    if (evenings < enough_evenings)
        points.push_back(
            fmt::format("Only {} evening{} count{}: one more may change everything. Watch on three or more.",
                        evenings, evenings == 1 ? "" : "s", evenings == 1 ? "s" : ""));
    if (plan.survey.even_effort())
        points.emplace_back(
            "No watches were given: every place counts as watched alike, so stations may look like routes.");
    const auto tallied =
        std::ranges::count(plan.survey.flights, survey::NotedIn::tallies, &survey::Flight::noted_in);
    if (tallied > 0)
        points.emplace_back("A tally tells how much flew, not where: passes with a place choose better.");
    const auto& known = plan.surfaces.flight_density.known;
    const std::size_t not_watched = trees_not_watched(plan);
    if (not_watched > 0 && !known.empty())
        points.push_back(fmt::format("{} of {} trees were not watched long enough: nothing is known of them.",
                                     not_watched, plan.candidates.size()));
    if (!plan.survey.evenings.empty()) {
        const auto first = std::chrono::sys_days(plan.survey.evenings.front().date);
        const auto last = std::chrono::sys_days(plan.survey.evenings.back().date);
        if (last - first < std::chrono::days(60))
            points.push_back(fmt::format("All evenings lie between {} and {}: other seasons may differ.",
                                         core::to_text(plan.survey.evenings.front()),
                                         core::to_text(plan.survey.evenings.back())));
    }
    return points;
}

}  // namespace roostward::report
