#include "roostward/report/terminal.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "roostward/core/catalogue.hpp"
#include "roostward/report/acceptability_words.hpp"
#include "roostward/report/certainty_words.hpp"
#include "roostward/report/choice_words.hpp"
#include "roostward/report/evidence_words.hpp"
#include "roostward/report/flight_words.hpp"
#include "roostward/report/hanging_words.hpp"
#include "roostward/report/settling_words.hpp"
#include "roostward/report/site_words.hpp"
#include "roostward/report/tally.hpp"
#include "roostward/report/text_block.hpp"
#include "roostward/report/words.hpp"

namespace roostward::report {

namespace {

/// Of trees that are not chosen.
constexpr std::size_t next_best_shown = 2;

/// "35 (20–60)"; "?" where there is no range.
std::string flights_with_range(const siting::Candidate& candidate) {
    const Figure flights = flights_figure(candidate.flights);
    const std::string value = flights.value_in_words();
    if (!flights.range) return core::said("terminal.flights_no_range", {{"value", value}});
    return core::said("terminal.flights", {{"value", value},
                                           {"low", flights.digits(flights.range->low)},
                                           {"high", flights.digits(flights.range->high)}});
}

std::string table_row(const plan::Plan& plan, std::size_t index) {
    const auto& tree = plan.trees.rows[index];
    const auto& candidate = plan.candidates[index];
    const auto& seen = candidate.activity;
    const std::string condition =
        tree.condition ? core::shown("condition", trees::to_text(*tree.condition)) : "?";
    const std::string evenings = seen.evenings_watched == 0
                                     ? core::said("terminal.no_evening")
                                     : core::said("terminal.evenings", {{"used", seen.evenings_used},
                                                                        {"watched", seen.evenings_watched}});
    return core::said("terminal.row", {{"site", candidate.site ? std::to_string(*candidate.site) : "-"},
                                       {"rank", *candidate.rank},
                                       {"tree", fitted(tree.id, 11)},
                                       {"flights", flights_with_range(candidate)},
                                       {"evenings", evenings},
                                       {"hours", seen.watch_hours.value()},
                                       {"condition", fitted(condition, 9)},
                                       {"species", fitted(tree.species, 10)}}) +
           "\n";
}

/// The chosen sites, then the best of the rest.
std::string ranked_table(const plan::Plan& plan) {
    std::string text = core::said("terminal.head") + "\n";
    for (const std::size_t tree : plan.chosen)
        text += table_row(plan, tree);
    std::size_t shown = 0;
    for (const std::size_t tree : plan.ranked) {
        if (shown == next_best_shown) break;
        if (plan.candidates[tree].site) continue;
        if (shown++ == 0) text += core::said("terminal.next_best") + "\n";
        text += table_row(plan, tree);
    }
    return text;
}

/// The other question: not how much flies, but whether the choice would be the same.
std::string chosen_again(const plan::Plan& plan) {
    if (plan.chosen.empty()) return {};
    if (plan.certainty.evenings < least_evenings_for_stays)
        return wrapped(core::said("terminal.again_not_known"), 2);
    std::string sites;
    for (const std::size_t tree : plan.chosen) {
        const siting::Candidate& candidate = plan.candidates[tree];
        sites += (sites.empty() ? "" : " · ") +
                 core::said("terminal.again_site",
                            {{"site", *candidate.site},
                             {"count", count_of_redraws(plan.certainty, candidate.stays_chosen)}});
    }
    return wrapped(core::said("terminal.again", {{"all", number_of_redraws(plan.certainty)},
                                                 {"redrawn", what_is_redrawn(plan.certainty)},
                                                 {"sites", sites}}),
                   2);
}

/// `topic` of the names' words: "state", "rule". `of_first` is said of those counted first.
std::string counted_line(const std::string& title, std::string_view topic, const std::vector<Counted>& tally,
                         const std::string& of_first = {}) {
    if (tally.empty()) return {};
    std::string line = title + " ";
    for (std::size_t i = 0; i < tally.size(); ++i)
        line += fmt::format("{}{} {}{}", i == 0 ? "" : " · ", core::shown(topic, tally[i].name),
                            tally[i].count, i == 0 ? of_first : "");
    return wrapped(line, 2);
}

/// " (4 of them not yet: …)"; empty where all that can be chosen have enough evidence.
std::string not_yet(const plan::Plan& plan) {
    const std::size_t count = trees_with_too_little(plan);
    return count == 0 ? "" : fmt::format(" ({})", core::said("terminal.not_yet", {{"count", count}}));
}

/// What happened to the trees; which rules took them where sites are missing.
std::string about_trees(const plan::Plan& plan) {
    const bool fewer = plan.chosen.size() < plan.settings.choice.sites;
    std::string text = counted_line(core::said("terminal.trees", {{"count", plan.candidates.size()}}),
                                    "state", states(plan), not_yet(plan));
    if (!fewer) return text;
    text += counted_line(core::said("terminal.ruled_out_by"), "rule", reasons(plan, trees::State::ruled_out));
    return text + counted_line(core::said("terminal.settle_first"), "rule",
                               reasons(plan, trees::State::settle_first));
}

/// What the choice hangs on most, and what nobody knows.
std::string doubts(const plan::Plan& plan) {
    std::string text;
    if (const std::string moves = what_moves_it_most(plan); !moves.empty()) text += wrapped(moves, 2);
    for (const auto& point : weak_points(plan))
        text += wrapped(point, 2);
    return text;
}

}  // namespace

std::string findings_text(const core::Findings& findings, std::size_t most_a_kind) {
    std::string text;
    for (const auto& kind : findings_by_kind(findings)) {
        text += fmt::format("{} ({})\n", core::shown("kind", kind.name), kind.count);
        std::size_t shown = 0;
        for (const auto& finding : findings) {
            if (finding.kind != kind.name || shown++ >= most_a_kind) continue;
            const std::string where = core::to_text(finding.place);
            text += wrapped(
                fmt::format("{}{}{}", where.empty() ? "" : where + ": ",
                            finding.value.empty() ? "" : "\"" + finding.value + "\": ", sentence_of(finding)),
                4, "  ");
        }
        if (kind.count > most_a_kind)
            text += "  " + core::said("terminal.and_more", {{"count", kind.count - most_a_kind}}) + "\n";
    }
    return text;
}

std::string plan_text(const plan::Plan& plan, const std::string& folder) {
    std::string text = plan.out_of_season.empty() ? "" : wrapped(plan.out_of_season);
    text += fmt::format("{} · {} · {}\n", plan.settings.site_name, plan.settings.profile.name,
                        core::said("plan.number", {{"number", plan.number}}));
    if (const std::string unchecked = nobody_checked(plan.checks); !unchecked.empty())
        text += wrapped(unchecked);
    text += wrapped(outcome(plan));
    if (!plan.ranked.empty()) text += ranked_table(plan) + chosen_again(plan);
    text += about_trees(plan) + wrapped(settling_in_short(plan), 2) + doubts(plan);
    if (!plan.chosen.empty()) text += wrapped(how_to_hang(plan), 2);
    const bool whole = !plan.settings.ranking_only;
    text += wrapped(cautions_in_short(whole ? "report.html" : "plan.json"), 2);
    return text +
           wrapped(core::said(whole ? "terminal.written" : "terminal.first_look", {{"folder", folder}}), 2);
}

std::string parameters_text(const std::vector<siting::Parameter>& parameters) {
    std::string text = "\n" + core::said("settings.head") + "\n";
    for (const auto& parameter : parameters) {
        const auto& provenance = parameter.provenance;
        text +=
            wrapped(fmt::format("{} = {}{}{} ({}; {}{}{}). {}", parameter.key, core::to_json(parameter.value),
                                parameter.unit.empty() ? "" : " ", parameter.unit,
                                core::shown("set_by", parameter.set_by),
                                core::shown("status", siting::to_text(provenance.status)),
                                provenance.source.empty() ? "" : ": ", provenance.source, parameter.meaning),
                    4);
    }
    return text;
}

}  // namespace roostward::report
