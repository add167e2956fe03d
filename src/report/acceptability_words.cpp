#include "roostward/report/acceptability_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "roostward/core/catalogue.hpp"
#include "roostward/siting/acceptability.hpp"

namespace roostward::report {

namespace {

constexpr std::size_t most_shown = 6;

/// "80", but "over 99" for what is not all, and "under 1" for what is not nothing.
std::string percent(double share) {
    if (share < 1.0 && share > 0.995) return core::said("stays.over_99");
    if (share > 0.0 && share < 0.005) return core::said("stays.under_1");
    return fmt::format("{:.0f}", 100.0 * share);
}

/// Above the first ways to re-draw evenings are so many that they are told of a hundred, above the second not
/// all of them are drawn.
constexpr std::size_t most_counted = 4, most_enumerated = 7;

/// A share of re-draws: 24 of 27.
struct OfAll {
    std::string count;
    double all = 100.0;
};
OfAll of_all(const siting::Certainty& certainty, double share) {
    const auto evenings = static_cast<double>(certainty.evenings);
    if (certainty.evenings > most_counted && certainty.evenings <= most_enumerated) return {percent(share)};
    const double all = certainty.evenings > most_enumerated ? static_cast<double>(certainty.redraws)
                                                            : std::pow(evenings, evenings);
    return {fmt::format("{:.0f}", share * all), all};
}

bool weights_matter(const plan::Plan& plan) {
    return std::ranges::any_of(
        plan.what_if.lines, [](const siting::WhatIf& line) { return line.change == siting::Change::weight; });
}

std::string letters_of(std::size_t group) {
    constexpr std::size_t alphabet = 26;
    std::string letters;
    for (; group > 0; group = (group - 1) / alphabet)
        letters.insert(letters.begin(), static_cast<char>('A' + static_cast<char>((group - 1) % alphabet)));
    return letters;
}

/// How many of the ranked trees share each group, the first group first.
std::vector<std::size_t> sizes_of_groups(const plan::Plan& plan) {
    std::vector<std::size_t> sizes;
    for (const std::size_t tree : plan.ranked)
        if (const auto group = plan.candidates[tree].group) {
            sizes.resize(std::max(sizes.size(), *group));
            ++sizes[*group - 1];
        }
    return sizes;
}

}  // namespace

std::string share_of_redraws(const siting::Certainty& certainty, double share) {
    if (certainty.evenings < least_evenings_for_stays) return {};
    const OfAll ways = of_all(certainty, share);
    return core::said(
        certainty.evenings > most_enumerated ? "stays.redraws"
        : certainty.evenings > most_counted  ? "stays.hundred"
                                             : "stays.ways",
        {{"count", ways.count}, {"all", ways.all}, {"evenings", core::in_words(certainty.evenings)}});
}

std::string count_of_redraws(const siting::Certainty& certainty, double share) {
    return certainty.evenings < least_evenings_for_stays ? std::string() : of_all(certainty, share).count;
}

std::string short_share_of_redraws(const siting::Certainty& certainty, double share) {
    if (certainty.evenings < least_evenings_for_stays) return {};
    const OfAll ways = of_all(certainty, share);
    return core::said("stays.short", {{"count", ways.count}, {"all", ways.all}});
}

std::string what_is_redrawn(const siting::Certainty& certainty) {
    if (certainty.evenings < least_evenings_for_stays) return core::said("stays.nothing_to_draw");
    const std::string_view key =
        certainty.evenings > most_enumerated ? "stays.all_redraws" : "stays.all_ways";
    return core::said(key, {{"evenings", core::in_words(certainty.evenings)}});
}

double number_of_redraws(const siting::Certainty& certainty) {
    return of_all(certainty, 0.0).all;
}

std::string stays_chosen(const plan::Plan& plan, std::size_t tree) {
    const siting::Candidate& candidate = plan.candidates[tree];
    const std::string evenings = share_of_redraws(plan.certainty, candidate.stays_chosen);
    const std::string weights = percent(candidate.acceptability.by_weights);
    if (!weights_matter(plan))
        return evenings.empty() ? evenings : core::said("stays.chosen", {{"share", evenings}});
    return core::said(evenings.empty() ? "stays.chosen_by_weights" : "stays.chosen_by_both",
                      {{"share", evenings}, {"percent", weights}});
}

std::string about_other_weights(const plan::Plan& plan) {
    if (!weights_matter(plan)) return {};
    std::vector<std::string> shaky;
    std::size_t more = 0;
    for (const std::size_t tree : plan.chosen) {
        const siting::Candidate& candidate = plan.candidates[tree];
        if (candidate.acceptability.by_weights >= 1.0) continue;
        if (shaky.size() < most_shown)
            shaky.push_back(core::said(
                "weightings.site",
                {{"site", *candidate.site}, {"percent", percent(candidate.acceptability.by_weights)}}));
        else
            ++more;
    }
    if (shaky.empty()) return core::said("weightings.all_stay");
    const bool all = shaky.size() + more == plan.chosen.size();
    return core::said("weightings.stay",
                      {{"sites", core::all_of(shaky)},
                       {"more", more > 0 ? core::said("weightings.more", {{"count", more}}) : ""},
                       {"others", all ? "" : core::said("weightings.others")}});
}

std::string about_groups(const plan::Plan& plan) {
    std::size_t last = 0;
    for (const std::size_t tree : plan.chosen)
        last = std::max(last, plan.candidates[tree].group.value_or(0));
    struct Ranks {
        std::size_t first = 0, last = 0;
    };
    std::vector<Ranks> groups(last);
    for (std::size_t i = 0; i < plan.ranked.size(); ++i) {
        const auto group = plan.candidates[plan.ranked[i]].group;
        if (!group || *group > last) continue;
        Ranks& ranks = groups[*group - 1];
        if (ranks.first == 0) ranks.first = i + 1;
        ranks.last = i + 1;
    }
    std::string text;
    for (std::size_t group = 0; group < last; ++group)
        if (const Ranks& ranks = groups[group]; ranks.last > ranks.first)
            text += fmt::format("{}{} {}–{}", text.empty() ? "" : " · ", letters_of(group + 1), ranks.first,
                                ranks.last);
    return text.empty() ? text : core::said("groups", {{"groups", text}});
}

core::Document stays_chosen_weights(const plan::Plan& plan, std::size_t tree) {
    if (!weights_matter(plan)) return {};
    return plan.candidates[tree].acceptability.by_weights;
}

std::vector<std::string> shared_groups(const plan::Plan& plan) {
    std::vector<std::string> groups;
    for (const std::size_t size : sizes_of_groups(plan))
        groups.push_back(size > 1 ? letters_of(groups.size() + 1) : std::string());
    return groups;
}

core::Document group_of(const siting::Candidate& candidate) {
    return candidate.group ? core::Document(letters_of(*candidate.group)) : core::Document();
}

core::Object acceptability_document(const plan::Plan& plan) {
    core::List trees;
    for (const std::size_t tree : plan.ranked) {
        const siting::Candidate& candidate = plan.candidates[tree];
        if (!candidate.group) continue;
        trees.emplace_back(core::Object{{"tree", plan.trees.rows[tree].id},
                                        {"rank", candidate.rank},
                                        {"group", group_of(candidate)},
                                        {"chosen_with_other_weights", stays_chosen_weights(plan, tree)},
                                        {"chosen_with_evenings_too", candidate.acceptability.chosen},
                                        {"first_with_evenings_too", candidate.acceptability.first}});
    }
    const std::size_t draws = plan.certainty.weight_draws;
    return {{"how", core::said("weightings.how")},
            {"draws", draws},
            {"error", siting::error_of_shares(draws)},
            {"trees", std::move(trees)}};
}

}  // namespace roostward::report
