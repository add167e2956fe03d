#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "html.hpp"
#include "html_text.hpp"
#include "page_parts.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/report/acceptability_words.hpp"
#include "roostward/report/choice_words.hpp"
#include "roostward/report/evidence_words.hpp"
#include "roostward/report/flight_words.hpp"
#include "roostward/report/hanging_words.hpp"
#include "roostward/report/reserve_words.hpp"
#include "roostward/report/settling_words.hpp"
#include "roostward/report/site_words.hpp"
#include "roostward/report/tally.hpp"
#include "roostward/report/text_block.hpp"
#include "roostward/report/words.hpp"

namespace roostward::report {

namespace {

/// Rows of the long table that can be read without scripts.
constexpr std::size_t rows_without_scripts = 30;

/// The tag of a tree; the scripts make it open the tree's card.
std::string tag_of(const Page& page, std::size_t tree) {
    const std::string tag = html_text(page.plan.trees.rows[tree].id);
    const auto place = page.shown.place_of(tree);
    return place ? fmt::format("<bdi data-tree=\"{}\">{}</bdi>", *place, tag) : element("bdi", tag);
}

std::string term(std::string_view key, const std::string& inner) {
    return element("div", element("dt", html_text(core::said(key))) + element("dd", inner));
}

/// The tree to take instead of a chosen one; empty where there is none.
std::string next_if_unsafe(const Page& page, std::size_t site) {
    const siting::Reserve* reserve = reserve_of(page.plan, site);
    if (!reserve) return {};
    const std::string others = others_with_reserve_of(page.plan, site);
    return term(
        "answer.reserve",
        fmt::format("{} ({} m)", tag_of(page, reserve->tree), figure(reserve->away.value())) +
            (others.empty() ? "" : " " + html_text(core::said("answer.shared", {{"sites", others}}))));
}

std::string seen_there(const siting::Candidate& candidate) {
    return core::said("answer.seen", {{"flights", flights_in_words(candidate.flights)},
                                      {"evenings", evenings_in_words(candidate.activity)},
                                      {"hours", candidate.activity.watch_hours.value()}});
}

std::string site_item(const Page& page, std::size_t index) {
    const plan::Plan& plan = page.plan;
    const trees::Tree& tree = plan.trees.rows[index];
    const siting::Candidate& candidate = plan.candidates[index];
    const std::string head =
        fmt::format("<span class=\"box\">{}</span> {} {} <i>{}</i>", *candidate.site,
                    html_text(core::said("answer.tree")), tag_of(page, index), name(tree.species));
    return element("li",
                   element("h3", head) + element("p class=\"way\"", html_text(page.ways.to(index))) +
                       element("dl", term("answer.height", figure(plan.mounting.height.value(), 1) + " m") +
                                         term("answer.faces", html_text(facings_in_words(candidate))) +
                                         term("answer.health", html_text(health(tree))) +
                                         next_if_unsafe(page, *candidate.site)) +
                       element("p class=\"flies\"", html_text(seen_there(candidate))) +
                       element("p class=\"sure\"",
                               html_text(core::said("answer.again", {{"sure", sureness(plan, index)}})))) +
           "\n";
}

/// Its site; else what keeps it from being one, as far as one look tells.
std::string standing(const plan::Plan& plan, std::size_t tree) {
    const siting::Candidate& candidate = plan.candidates[tree];
    if (candidate.site) return core::said("table.site", {{"site", std::to_string(*candidate.site)}});
    if (!candidate.enough_evidence) return core::said("ui.little_evidence");
    const std::optional<TooNear> near = too_near(plan, tree);
    if (!near) return core::said("ui.state_0");
    return core::said("ui.near_site", {{"metres", std::to_string(std::lround(near->away.value()))},
                                       {"site", std::to_string(*plan.candidates[near->site].site)}});
}

Row ranked_row(const Page& page, std::size_t index) {
    const trees::Tree& tree = page.plan.trees.rows[index];
    const siting::Candidate& candidate = page.plan.candidates[index];
    const auto& seen = candidate.activity;
    return {
        std::to_string(*candidate.rank),
        tag_of(page, index),
        html_text(standing(page.plan, index)),
        with_range(flights_figure(candidate.flights)),
        html_text(seen.evenings_watched == 0
                      ? core::said("ui.no_evening")
                      : core::said("table.evenings", {{"used", std::to_string(seen.evenings_used)},
                                                      {"watched", std::to_string(seen.evenings_watched)}})),
        figure(seen.watch_hours.value(), 1),
        html_text(short_share_of_redraws(page.plan.certainty, candidate.stays_chosen)),
        html_text(tree.condition ? core::shown("condition", trees::to_text(*tree.condition)) : ""),
        html_text(facings_in_words(candidate)),
        name(tree.species),
        tree.dbh ? figure(tree.dbh->value()) : ""};
}

/// Empty where every tree that can be chosen has enough evidence.
std::string too_little_evidence(const plan::Plan& plan) {
    const std::size_t count = trees_with_too_little(plan);
    return count == 0 ? "" : element("p", html_text(core::said("table.too_little", {{"count", count}})));
}

}  // namespace

std::string questions(const trees::Verdict& verdict) {
    std::string all;
    for (const auto& reason : verdict.reasons)
        if (reason.state == trees::State::settle_first)
            all += element(
                "p", element("b", html_text(core::said("settling.ask",
                                                       {{"who", core::shown("who", reason.who)}}))) +
                         " " + html_text(reason.ask) + " " + element("small", html_text(reason.sentence)));
    return all;
}

std::string counts_by_rule(const plan::Plan& plan, trees::State state) {
    const auto counts = reasons(plan, state);
    std::vector<Row> rows;
    for (const Counted& rule : counts) {
        const double share = static_cast<double>(rule.count) / static_cast<double>(counts.front().count);
        rows.push_back({element(fmt::format("span data-rule=\"{}\"", static_cast<int>(state)),
                                html_text(core::shown("rule", rule.name))),
                        figure(static_cast<double>(rule.count)),
                        fmt::format("<svg class=\"bar\" viewBox=\"0 0 100 8\" preserveAspectRatio=\"none\" "
                                    "aria-hidden=\"true\"><rect width=\"{:.1f}\" height=\"8\"/></svg>",
                                    100.0 * share)});
    }
    return table(core::said(state == trees::State::ruled_out ? "part.ruled_out" : "settling.by_rule"),
                 {{core::said("rules.rule")}, {core::said("rules.trees"), true}, {core::said("rules.share")}},
                 rows);
}

std::string answer(const Page& page) {
    std::string items;
    for (const std::size_t tree : page.plan.chosen)
        items += site_item(page, tree);
    return element("p class=\"outcome\"", html_text(outcome(page.plan))) +
           element("ol class=\"sites\"", items);
}

std::string ranked_trees(const Page& page) {
    std::vector<Row> rows;
    for (std::size_t i = 0; i < std::min(rows_without_scripts, page.plan.ranked.size()); ++i)
        rows.push_back(ranked_row(page, page.plan.ranked[i]));
    std::string summary;
    for (const Counted& state : states(page.plan))
        summary +=
            fmt::format("{}{} {}", summary.empty() ? "" : " · ", html_text(core::shown("state", state.name)),
                        figure(static_cast<double>(state.count)));
    return element("p",
                   fmt::format("{} {}",
                               html_text(core::said("table.of_all",
                                                    {{"all", std::to_string(page.plan.candidates.size())}})),
                               summary)) +
           too_little_evidence(page.plan) +
           element("div id=\"trees\"", table(core::said("table.title"),
                                             {{core::said("ui.rank"), true},
                                              {core::said("ui.tree")},
                                              {core::said("ui.state")},
                                              {core::said("ui.flights"), true},
                                              {core::said("ui.evenings"), true},
                                              {core::said("ui.hours"), true},
                                              {core::said("ui.again"), true},
                                              {core::said("ui.condition")},
                                              {core::said("ui.facing")},
                                              {core::said("ui.species")},
                                              {core::said("ui.dbh"), true}},
                                             rows)) +
           element("p class=\"note\"",
                   html_text(core::said("table.note", {{"redrawn", what_is_redrawn(page.plan.certainty)}})));
}

std::string settling(const Page& page) {
    const plan::Plan& plan = page.plan;
    const std::string intro =
        core::said(plan.worth_settling.empty() ? "settling.none" : "settling.intro",
                   {{"best", std::to_string(3 * plan.settings.choice.sites)},
                    {"all", std::to_string(trees_in(plan, trees::State::settle_first))}});
    std::vector<Row> rows;
    for (const std::size_t tree : plan.worth_settling) {
        const auto& candidate = plan.candidates[tree];
        rows.push_back({figure(static_cast<double>(*candidate.would_rank)), tag_of(page, tree),
                        html_text(page.ways.to(tree)), html_text(who_decides(candidate.verdict)),
                        questions(candidate.verdict)});
    }
    std::string text = element("p", html_text(intro));
    if (!rows.empty())
        text += table(core::said("settling.title"),
                      {{core::said("settling.would_rank"), true},
                       {core::said("ui.tree")},
                       {core::said("settling.where")},
                       {core::said("settling.who")},
                       {core::said("settling.what")}},
                      rows, Narrow::stacks);
    if (trees_in(plan, trees::State::settle_first) > 0)
        text += element("h3", html_text(core::said("settling.by_rule"))) +
                element("p", html_text(core::said("settling.by_rule_counts"))) +
                counts_by_rule(plan, trees::State::settle_first);
    return text;
}

std::string ruled_out(const Page& page) {
    const std::size_t count = trees_in(page.plan, trees::State::ruled_out);
    if (count == 0) return element("p", html_text(core::said("rules.none")));
    return element("p", html_text(core::said("rules.intro", {{"count", std::to_string(count)}}))) +
           counts_by_rule(page.plan, trees::State::ruled_out);
}

std::string not_watched(const Page& page) {
    const plan::Plan& plan = page.plan;
    std::string text = core::said("not_watched.trees", {{"count", std::to_string(trees_not_watched(plan))},
                                                        {"all", std::to_string(plan.candidates.size())},
                                                        {"hours", plan.settings.activity.min_watch.value()}});
    if (const auto share = share_not_watched(plan))
        text = core::said("not_watched.ground", {{"percent", fmt::format("{:.0f}", 100.0 * *share)}}) + " " +
               text;
    return element("p",
                   html_text(in_a_row({text, core::said("not_watched.meaning"), what_shows_a_tree(plan)})));
}

std::string hanging(const Page& page) {
    const plan::Plan& plan = page.plan;
    if (plan.chosen.empty()) return element("p", html_text(outcome(plan)));
    return element("p", html_text(how_to_hang(plan))) + element("p", html_text(when_to_put_up(plan))) +
           element("h3", html_text(core::said("hanging.box"))) + list_of(before_you_hang_it(plan)) +
           element("h3", html_text(core::said("hanging.climber"))) + list_of(climber_confirms(plan)) +
           element("h3", html_text(core::said("hanging.afterwards"))) + list_of(afterwards()) +
           element("h3", html_text(core::said("hanging.owner"))) +
           element("p", html_text(owners_paragraph(plan)));
}

}  // namespace roostward::report
