#include "roostward/report/compare_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <map>
#include <string_view>

#include "compare_causes.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/report/figures.hpp"
#include "roostward/report/text_block.hpp"

namespace roostward::report {

namespace {

using core::Document;

constexpr std::size_t most_told = 12;
constexpr std::string_view sites = "compare.sites";

/// A tree in both plans; one of them may not have it.
struct Pair {
    std::string tag;
    const FinishedTree* before = nullptr;
    const FinishedTree* after = nullptr;
};

/// As good as it stands in either plan.
double best_rank(const Pair& pair) {
    double best = std::numeric_limits<double>::infinity();
    for (const FinishedTree* tree : {pair.before, pair.after})
        for (const std::string_view rank : {"rank", "would_rank"})
            if (tree != nullptr) best = std::min(best, tree->at(rank).number().value_or(best));
    return best;
}

/// Best ranks first, then in the order of the plan after, then what only the plan before has.
std::vector<Pair> pairs_of(const std::vector<FinishedTree>& before, const std::vector<FinishedTree>& after) {
    std::map<std::string_view, const FinishedTree*> old;
    for (const FinishedTree& tree : before)
        old.emplace(tree.id(), &tree);
    std::vector<Pair> pairs;
    for (const FinishedTree& tree : after) {
        const auto was = old.extract(tree.id());
        pairs.push_back({std::string(tree.id()), was.empty() ? nullptr : was.mapped(), &tree});
    }
    for (const auto& [tag, tree] : old)
        pairs.push_back({std::string(tag), tree, nullptr});
    std::ranges::stable_sort(pairs, {}, best_rank);
    return pairs;
}

std::optional<double> number(const FinishedTree* tree, std::string_view property) {
    return tree == nullptr ? std::nullopt : tree->at(property).number();
}

/// "rank 4, score 0.38", "settle first (lamp)", "not in the inventory"
std::string score_of(const FinishedTree& tree) {
    const auto low = tree.at("score_low").number(), high = tree.at("score_high").number();
    return score_in_words(tree.at("score").number().value_or(0.0),
                          low && high ? std::optional(activity::Range{*low, *high}) : std::nullopt);
}

std::string standing(const FinishedTree* tree) {
    if (tree == nullptr) return core::said("compare.no_tree");
    const auto rank = tree->at("rank").number();
    if (!rank) return fmt::format("{} ({})", tree->state_in_words(), tree->rules_in_words());
    return core::said("compare.rank_and_score", {{"rank", *rank}, {"score", score_of(*tree)}});
}

std::string about_site(const Pair& pair) {
    const auto was = number(pair.before, "site"), is = number(pair.after, "site");
    if (was == is) return {};
    return core::said(!is    ? "compare.was_site"
                      : !was ? "compare.is_site"
                             : "compare.other_site",
                      {{"tree", pair.tag},
                       {"is", is.value_or(0.0)},
                       {"was", was.value_or(0.0)},
                       {"before", standing(pair.before)},
                       {"now", standing(pair.after)}});
}

bool same_state(const Pair& pair) {
    return pair.before != nullptr && pair.after != nullptr && pair.before->state() == pair.after->state();
}

std::string about_state(const Pair& pair) {
    if (same_state(pair)) return {};
    const auto told = [](const FinishedTree* tree) {
        if (tree == nullptr) return core::said("compare.no_tree");
        const std::string rules = tree->rules_in_words(), state = tree->state_in_words();
        return rules.empty() ? state : fmt::format("{} ({})", state, rules);
    };
    return core::said("compare.state",
                      {{"tree", pair.tag}, {"now", told(pair.after)}, {"before", told(pair.before)}});
}

std::string about_reasons(const Pair& pair) {
    if (!same_state(pair)) return {};
    if (pair.before->rules() == pair.after->rules()) return {};
    return core::said("compare.reasons", {{"tree", pair.tag},
                                          {"state", pair.after->state_in_words()},
                                          {"now", pair.after->rules_in_words()},
                                          {"before", pair.before->rules_in_words()}});
}

/// "rank 3 instead of 4", "rank 3 as before"
std::string ranked(double is, double was) {
    return core::said(is == was ? "compare.same_rank" : "compare.other_rank", {{"is", is}, {"was", was}});
}

/// Of trees that can be chosen in both, as the outputs write it.
std::string about_rank(const Pair& pair) {
    const auto was = number(pair.before, "rank"), is = number(pair.after, "rank");
    if (!was || !is) return {};
    const auto score_was = number(pair.before, "score"), score = number(pair.after, "score");
    if (*was == *is && score_was == score) return {};
    const std::string before = score_of(*pair.before), now = score_of(*pair.after);
    return core::said(before == now ? "compare.score_hardly" : "compare.score",
                      {{"tree", pair.tag}, {"rank", ranked(*is, *was)}, {"is", now}, {"was", before}});
}

template <class About>
Changes changes(std::string_view title, const std::vector<Pair>& pairs, const About& about) {
    Changes all{title, {}};
    for (const Pair& pair : pairs)
        if (std::string sentence = about(pair); !sentence.empty())
            all.sentences.push_back(std::move(sentence));
    return all;
}

std::string block(const Changes& group) {
    std::string text = fmt::format("\n{} ({})\n", core::said(group.title), group.sentences.size());
    for (std::size_t i = 0; i < std::min(most_told, group.sentences.size()); ++i)
        text += wrapped(group.sentences[i], 2, "- ");
    if (group.sentences.size() > most_told)
        text += "  " + core::said("compare.and_more", {{"count", group.sentences.size() - most_told}}) + "\n";
    return text;
}

std::string because(const Comparison& comparison) {
    if (comparison.causes.empty())
        return core::said(comparison.moved() ? "compare.no_cause" : "compare.same_causes");
    std::string causes;
    for (const Changes& cause : comparison.causes)
        causes += fmt::format("{}{} ({})", causes.empty() ? "" : " ", core::said(cause.title),
                              cause.sentences.size());
    return core::said("compare.causes", {{"causes", causes}});
}

core::List groups_document(const std::vector<Changes>& groups) {
    core::List list;
    for (const Changes& group : groups)
        list.emplace_back(
            core::Object{{"title", core::said(group.title)},
                         {"sentences", core::List(group.sentences.begin(), group.sentences.end())}});
    return list;
}

}  // namespace

Comparison compare(const FinishedPlan& before, const FinishedPlan& after) {
    const std::vector<FinishedTree> old = trees_of(before), now = trees_of(after);
    const std::vector<Pair> pairs = pairs_of(old, now);
    return {told_number(before), told_number(after), causes_of(before, after),
            not_empty({changes(sites, pairs, about_site), changes("compare.states", pairs, about_state),
                       changes("compare.other_reasons", pairs, about_reasons),
                       changes("compare.ranks", pairs, about_rank)})};
}

std::string compare_text(const Comparison& comparison) {
    const bool other_sites = comparison.moved() && comparison.effects.front().title == sites;
    std::string text =
        wrapped(core::said("compare.plans", {{"before", comparison.before}, {"after", comparison.after}}));
    text += core::said(!comparison.moved() ? "compare.nothing_moved"
                       : other_sites       ? "compare.sites_moved"
                                           : "compare.others_moved") +
            "\n";
    for (const Changes& effect : comparison.effects)
        text += block(effect);
    text += "\n" + wrapped(because(comparison));
    for (const Changes& cause : comparison.causes)
        text += block(cause);
    return text;
}

Document compare_document(const Comparison& comparison) {
    return core::Object{{"before", comparison.before},
                        {"after", comparison.after},
                        {"moved", comparison.moved()},
                        {"effects", groups_document(comparison.effects)},
                        {"causes", groups_document(comparison.causes)}};
}

}  // namespace roostward::report
