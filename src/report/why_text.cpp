#include "roostward/report/why_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/core/folding.hpp"
#include "roostward/report/figures.hpp"
#include "roostward/report/flight_words.hpp"
#include "roostward/report/settling_words.hpp"
#include "roostward/report/text_block.hpp"
#include "roostward/trees/suitability.hpp"
#include "tree_neighbours.hpp"
#include "why_certainty.hpp"

namespace roostward::report {

namespace {

using core::Document;

constexpr std::size_t most_alike = 5;
constexpr std::size_t most_neighbours = 5;
constexpr core::Metres next_to{30.0};

/// A tag without its blanks and marks between.
std::string letters_of(std::string_view id) {
    std::string letters;
    for (const std::string& word : core::plain_words(id))
        letters += word;
    return letters;
}

/// Trees whose tag holds the same letters and digits in a row.
std::string alike(const std::vector<FinishedTree>& trees, std::string_view id) {
    const std::string wanted = letters_of(id);
    std::vector<std::string> tags;
    for (const FinishedTree& tree : trees)
        if (tags.size() < most_alike && !wanted.empty() &&
            letters_of(tree.id()).find(wanted) != std::string::npos)
            tags.push_back(fmt::format("\"{}\"", tree.id()));
    return tags.empty() ? std::string() : core::said("error.no_tree.alike", {{"tags", core::all_of(tags)}});
}

FinishedTree found(const FinishedPlan& plan, const std::vector<FinishedTree>& trees, std::string_view id) {
    const auto tree = std::ranges::find_if(trees, [&](const FinishedTree& t) { return t.id() == id; });
    if (tree != trees.end()) return *tree;
    throw core::Error(core::Fault::usage, {plan.folder, {}, {}, {}},
                      core::said("error.no_tree", {{"tree", id}, {"alike", alike(trees, id)}}));
}

const core::List& score_parts(const FinishedPlan& plan, const FinishedTree& tree) {
    return member_with(plan.plan.at("summary").at("scores").at("trees"), "tree", tree.id())
        .at("parts")
        .list();
}

/// "site 2, rank 4 of 46", "settle first, would rank 3", "ruled out"
std::string standing(const FinishedPlan& plan, const FinishedTree& tree) {
    const auto site = tree.at("site").number();
    if (const auto rank = tree.at("rank").number())
        return core::said(site ? "standing.site" : "standing.rank",
                          {{"site", site.value_or(0.0)},
                           {"rank", *rank},
                           {"all", plan.ranked.at("features").list().size()}});
    const auto rank = tree.at("would_rank").number();
    return rank ? core::said("standing.would_rank", {{"state", tree.state_in_words()}, {"rank", *rank}})
                : tree.state_in_words();
}

std::string heading(const FinishedPlan& plan, const FinishedTree& tree) {
    const std::string_view species = tree.at("species").text();
    return wrapped(
        fmt::format("{}{}{} · {}", tree.id(), species.empty() ? "" : " · ", species, standing(plan, tree)));
}

std::string reasons(const FinishedTree& tree) {
    std::string text;
    for (const Document& reason : tree.at("reasons").list()) {
        const std::string_view who = reason.at("who").text();
        const std::string told = fmt::format("{}: {}", core::shown("state", reason.at("state").text()),
                                             reason.at("sentence").text());
        text += wrapped(in_a_row({told, who.empty() ? "" : ask_the(who, reason.at("ask").text())}), 2, "- ");
    }
    return text;
}

std::optional<activity::Range> range_of(const FinishedTree& tree, const std::string& key) {
    const auto low = tree.at(key + "_low").number(), high = tree.at(key + "_high").number();
    return low && high ? std::optional(activity::Range{*low, *high}) : std::nullopt;
}

/// How much flies at a tree that has no sentence of its own since it is not ranked; empty where nobody
/// watched.
std::string flight_at(const FinishedTree& tree) {
    const auto flights = tree.at("flights_per_hour").number();
    if (!flights) return {};
    const auto whole = [&tree](std::string_view key) {
        return static_cast<std::uint32_t>(tree.at(key).number().value_or(0.0));
    };
    siting::Candidate candidate;
    candidate.flights = {*flights, *flights == 0.0, range_of(tree, "flights_per_hour")};
    candidate.activity.evenings_used = whole("evenings_used");
    candidate.activity.evenings_watched = whole("evenings_watched");
    candidate.activity.watch_hours = core::Hours(tree.at("watch_hours").number().value_or(0.0));
    return flight_there(candidate);
}

std::string score_of(const FinishedTree& tree, double score) {
    return score_in_words(score, range_of(tree, "score"));
}

/// Flight density is rounded by its range; the other measures come from maps and files.
std::string as_measured(const FinishedTree& tree, const Document& part) {
    const auto value = part.at("value").number();
    if (!value) return core::said("score.not_known");
    const std::string unit = core::shown("unit", part.at("unit").text());
    if (part.at("measure").text() != "flight density")
        return core::said(*value < 100.0 ? "score.small" : "score.large",
                          {{"value", *value}, {"unit", unit}});
    const Figure density = rounded_figure(*value, range_of(tree, "flight_density"));
    return core::said("score.about", {{"value", density.value_in_words()}, {"unit", unit}});
}

/// Of 100, with its sign; "0" where it is less than a half.
std::string hundredths(double change) {
    return std::abs(change) < 0.005 ? "0" : core::said("score.change", {{"change", 100.0 * change}});
}

/// A part and its range in steps that the range allows.
std::string contribution_of(const Document& part) {
    const double value = part.at("contribution").number().value_or(0.0);
    const auto low = part.at("contribution_low").number(), high = part.at("contribution_high").number();
    if (!low || !high || *high <= *low) return fmt::format("{:>7}", hundredths(value));
    const double step = std::max(0.01, round_step(0.25 * (*high - *low)));
    const auto rounded = [step](double x) { return hundredths(step * std::round(x / step)); };
    return fmt::format("{:>7}   {}", rounded(value),
                       core::said("score.from_to", {{"low", rounded(*low)}, {"high", rounded(*high)}}));
}

std::string score_table(const core::List& parts, const FinishedTree& tree) {
    if (parts.empty()) return {};
    const double score = tree.at("score").number().value_or(0.0);
    std::string text = "\n" + core::said("score.head", {{"score", score_of(tree, score)}}) + "\n";
    for (const Document& part : parts)
        text += fmt::format("  {:<15} {:<24} {}\n", core::shown("measure", part.at("measure").text()),
                            as_measured(tree, part), contribution_of(part));
    return text + wrapped(core::said("score.note"), 2, "  ");
}

/// What makes most of the difference between two scores: "more by flight density, less by sun".
std::string differences(const core::List& ours, const core::List& theirs) {
    struct Difference {
        std::string_view measure;
        double more = 0.0;
    };
    std::vector<Difference> all;
    for (const Document& part : theirs)
        for (const Document& same : ours)
            if (same.at("measure") == part.at("measure"))
                all.push_back(
                    {part.at("measure").text(), part.at("contribution").number().value_or(0.0) -
                                                    same.at("contribution").number().value_or(0.0)});
    std::ranges::stable_sort(all, std::greater{}, [](const Difference& d) { return std::abs(d.more); });
    std::string text;
    for (std::size_t i = 0; i < std::min<std::size_t>(2, all.size()); ++i)
        if (std::abs(all[i].more) >= 0.005)
            text += (text.empty() ? "" : ", ") +
                    core::said(all[i].more > 0.0 ? "round.more" : "round.less",
                               {{"measure", core::shown("measure", all[i].measure)}});
    return text;
}

std::string about(const FinishedPlan& plan, const FinishedTree& tree, const Neighbour& neighbour) {
    const FinishedTree& other = neighbour.tree;
    const std::string rules = other.rules_in_words();
    const std::string stands = standing(plan, other) + (rules.empty() ? "" : fmt::format(" ({})", rules));
    std::string text = core::said("round.neighbour", {{"tree", other.id()},
                                                      {"metres", neighbour.away.value()},
                                                      {"way", core::shown("point", neighbour.toward)},
                                                      {"standing", stands}});
    const auto ours = tree.at("score").number(), theirs = other.at("score").number();
    if (!ours || !theirs) return text;
    const std::string by = differences(score_parts(plan, tree), score_parts(plan, other));
    return in_a_row(
        {text,
         core::said(by.empty() ? "round.scores" : "round.scores_by",
                    {{"there", score_of(other, *theirs)}, {"here", score_of(tree, *ours)}, {"by", by}})});
}

core::Metres spacing_of(const FinishedPlan& plan) {
    const Document& parameter = member_with(plan.plan.at("parameters"), "key", "choose.spacing_m");
    return core::Metres(parameter.at("value").number().value_or(0.0));
}

RoundAbout around(const FinishedPlan& plan, const FinishedTree& tree,
                  const std::vector<FinishedTree>& trees) {
    return round_about(tree, trees, std::max(next_to, spacing_of(plan)), most_neighbours);
}

std::string stands_by(const FinishedPlan& plan, const FinishedTree& tree,
                      const std::vector<FinishedTree>& trees) {
    const RoundAbout near = around(plan, tree, trees);
    std::string text = "\n" + core::said("round.head") + "\n";
    for (const Neighbour& neighbour : near.scored)
        text += wrapped(about(plan, tree, neighbour), 2, "- ");
    const core::Metres within = std::max(next_to, spacing_of(plan));
    return text +
           wrapped(core::said("round.others", {{"metres", within.value()}, {"count", near.others}}), 2, "- ");
}

std::string keeping_away(const FinishedTree& tree) {
    std::string text;
    for (const Document& from : tree.at("keep_away").list())
        if (const auto metres = from.at("crown_edge_m").number())
            text +=
                wrapped(core::said("keep_away", {{"what", from.at("from").text()},
                                                 {"metres", *metres},
                                                 {"wanted", from.at("more_than_m").number().value_or(0.0)}}),
                        2, "- ");
    return text.empty() ? text : "\n" + core::said("keep_away.head") + "\n" + text;
}

std::string before_anyone_climbs(const FinishedPlan& plan) {
    std::string text = "\n" + core::said("before_anyone_climbs") + "\n";
    const std::string_view unchecked = plan.plan.at("not_checked").text();
    if (!unchecked.empty()) text += wrapped(unchecked, 2, "- ");
    const std::string_view caution =
        member_with(plan.plan.at("cautions"), "matter", "tree").at("text").text();
    return caution.empty() ? text : text + wrapped(caution, 2, "- ");
}

}  // namespace

std::string why_text(const FinishedPlan& plan, std::string_view id) {
    const std::vector<FinishedTree> trees = trees_of(plan);
    const FinishedTree tree = found(plan, trees, id);
    std::string text = heading(plan, tree) + wrapped(told_number(plan)) + "\n";
    const std::string_view why = tree.at("why").text();
    if (const std::string told = why.empty() ? flight_at(tree) : std::string(why); !told.empty())
        text += wrapped(told);
    if (const std::string_view lacking = tree.at("evidence_lacking").text(); !lacking.empty())
        text += wrapped(core::said("evidence.lacking", {{"lacking", lacking}}));
    if (tree.state() == trees::to_text(trees::State::not_watched))
        text += wrapped(plan.plan.at("summary").at("to_watch_a_tree").text());
    text += reasons(tree);
    text += score_table(score_parts(plan, tree), tree);
    return text + how_sure_of(plan, tree) + what_would_change_it(plan, tree) + stands_by(plan, tree, trees) +
           keeping_away(tree) + before_anyone_climbs(plan);
}

Document why_document(const FinishedPlan& plan, std::string_view id) {
    const std::vector<FinishedTree> trees = trees_of(plan);
    const FinishedTree tree = found(plan, trees, id);
    core::List near;
    for (const Neighbour& neighbour : around(plan, tree, trees).scored)
        near.emplace_back(core::Object{{"tree", neighbour.tree.id()},
                                       {"away_m", neighbour.away.value()},
                                       {"toward", neighbour.toward},
                                       {"sentence", about(plan, tree, neighbour)}});
    return core::Object{{"plan", plan.plan.at("number")},
                        {"tree", tree.id()},
                        {"state", tree.state()},
                        {"standing", standing(plan, tree)},
                        {"properties", tree.properties()},
                        {"score_parts", score_parts(plan, tree)},
                        {"at_its_site", site_of(plan, tree)},
                        {"round_about", std::move(near)},
                        {"not_checked", plan.plan.at("not_checked")}};
}

}  // namespace roostward::report
