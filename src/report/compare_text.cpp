#include "roostward/report/compare_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <map>
#include <string_view>

#include "compare_causes.hpp"
#include "roostward/report/text_block.hpp"

namespace roostward::report {

namespace {

using core::Document;

constexpr std::size_t most_told = 12;
constexpr std::string_view sites = "Sites";

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
std::string standing(const FinishedTree* tree) {
    if (tree == nullptr) return "not in the inventory";
    const auto rank = tree->at("rank").number();
    if (!rank) return fmt::format("{} ({})", tree->state(), tree->rules());
    return fmt::format("rank {:g}, score {:.2f}", *rank, tree->at("score").number().value_or(0.0));
}

std::string about_site(const Pair& pair) {
    const auto was = number(pair.before, "site"), is = number(pair.after, "site");
    if (was == is) return {};
    const std::string change =
        fmt::format("before: {}; now: {}", standing(pair.before), standing(pair.after));
    if (!is) return fmt::format("{} was site {:g} and is not chosen ({}).", pair.tag, *was, change);
    if (!was) return fmt::format("{} is site {:g} and was not chosen ({}).", pair.tag, *is, change);
    return fmt::format("{} is site {:g} instead of {:g} ({}).", pair.tag, *is, *was, change);
}

bool same_state(const Pair& pair) {
    return pair.before != nullptr && pair.after != nullptr && pair.before->state() == pair.after->state();
}

std::string about_state(const Pair& pair) {
    if (same_state(pair)) return {};
    const auto told = [](const FinishedTree* tree) {
        if (tree == nullptr) return std::string("not in the inventory");
        const std::string rules = tree->rules();
        return rules.empty() ? std::string(tree->state()) : fmt::format("{} ({})", tree->state(), rules);
    };
    return fmt::format("{}: {}; before: {}.", pair.tag, told(pair.after), told(pair.before));
}

std::string about_reasons(const Pair& pair) {
    if (!same_state(pair)) return {};
    const std::string before = pair.before->rules(), after = pair.after->rules();
    return before == after
               ? std::string()
               : fmt::format("{}: {} by {} instead of {}.", pair.tag, pair.after->state(), after, before);
}

/// "rank 3 instead of 4", "rank 3 as before"
std::string ranked(double is, double was) {
    return is == was ? fmt::format("rank {:g} as before", is)
                     : fmt::format("rank {:g} instead of {:g}", is, was);
}

/// Of trees that can be chosen in both, as the outputs write it.
std::string about_rank(const Pair& pair) {
    const auto was = number(pair.before, "rank"), is = number(pair.after, "rank");
    if (!was || !is) return {};
    const auto score_was = number(pair.before, "score"), score = number(pair.after, "score");
    if (*was == *is && score_was == score) return {};
    return fmt::format("{}: {}, score {:.3f} instead of {:.3f}.", pair.tag, ranked(*is, *was),
                       score.value_or(0.0), score_was.value_or(0.0));
}

template <class About>
Changes changes(std::string title, const std::vector<Pair>& pairs, const About& about) {
    Changes all{std::move(title), {}};
    for (const Pair& pair : pairs)
        if (std::string sentence = about(pair); !sentence.empty())
            all.sentences.push_back(std::move(sentence));
    return all;
}

std::string block(const Changes& group) {
    std::string text = fmt::format("\n{} ({})\n", group.title, group.sentences.size());
    for (std::size_t i = 0; i < std::min(most_told, group.sentences.size()); ++i)
        text += wrapped(group.sentences[i], 2, "- ");
    if (group.sentences.size() > most_told)
        text += fmt::format("  … and {} more: --json gives all\n", group.sentences.size() - most_told);
    return text;
}

std::string because(const Comparison& comparison) {
    if (comparison.causes.empty())
        return comparison.moved()
                   ? "The inputs, settings, seed and version are the same: then the plans should "
                     "be the same too, unless they come from different machines."
                   : "They were made from the same inputs with the same settings.";
    std::string text = "They were made from other things:";
    for (const Changes& cause : comparison.causes)
        text += fmt::format(" {} ({})", cause.title, cause.sentences.size());
    return text + ".";
}

core::List groups_document(const std::vector<Changes>& groups) {
    core::List list;
    for (const Changes& group : groups)
        list.emplace_back(
            core::Object{{"title", group.title},
                         {"sentences", core::List(group.sentences.begin(), group.sentences.end())}});
    return list;
}

}  // namespace

Comparison compare(const FinishedPlan& before, const FinishedPlan& after) {
    const std::vector<FinishedTree> old = trees_of(before), now = trees_of(after);
    const std::vector<Pair> pairs = pairs_of(old, now);
    return {causes_of(before, after),
            not_empty({changes(std::string(sites), pairs, about_site),
                       changes("Trees in another state", pairs, about_state),
                       changes("Other reasons for the same state", pairs, about_reasons),
                       changes("Ranks and scores", pairs, about_rank)})};
}

std::string compare_text(const Comparison& comparison) {
    const bool other_sites = comparison.moved() && comparison.effects.front().title == sites;
    std::string text = !comparison.moved() ? "Nothing moved: the same sites, states, ranks and scores.\n"
                       : other_sites       ? "The two plans choose other sites.\n"
                                           : "The same sites are chosen; other things moved.\n";
    for (const Changes& effect : comparison.effects)
        text += block(effect);
    text += "\n" + wrapped(because(comparison));
    for (const Changes& cause : comparison.causes)
        text += block(cause);
    return text;
}

Document compare_document(const Comparison& comparison) {
    return core::Object{{"moved", comparison.moved()},
                        {"effects", groups_document(comparison.effects)},
                        {"causes", groups_document(comparison.causes)}};
}

}  // namespace roostward::report
