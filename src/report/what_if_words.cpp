#include "roostward/report/what_if_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "roostward/core/catalogue.hpp"

namespace roostward::report {

namespace {

using siting::Change;
using siting::WhatIf;

double number_in(const core::Document& document) {
    return std::get<double>(document.value());
}

/// "7.5", "good or fair"
std::string told(const core::Document& document) {
    if (const double* const number = std::get_if<double>(&document.value()))
        return core::said("if.number", {{"number", *number}});
    std::vector<std::string> words;
    for (const core::Document& word : std::get<core::List>(document.value()))
        words.push_back(core::shown("condition", std::get<std::string>(word.value())));
    return core::one_of(words);
}

std::string about_rule(const plan::Plan& plan, const WhatIf& line) {
    const std::string to = told(line.to), from = told(line.from);
    if (const std::string key = "if." + line.subject; core::catalogue().contains(key))
        return core::said(key, {{"to", to}, {"from", from}});
    for (const trees::AvoidLayer& avoid : plan.surroundings.avoid) {
        const std::string& what = avoid.reason.empty() ? avoid.file : avoid.reason;
        if (line.subject == fmt::format("{}.within_m", avoid.key))
            return core::said("if.avoid", {{"to", to}, {"from", from}, {"what", what}});
    }
    return core::said("if.other", {{"what", line.subject}, {"to", to}, {"from", from}});
}

std::string about_weight(const WhatIf& line) {
    const double to = number_in(line.to), factor = to / number_in(line.from);
    const std::string_view key = factor == 0.0   ? "if.does_not_count"
                                 : factor == 0.5 ? "if.counts_half"
                                 : factor == 2.0 ? "if.counts_twice"
                                                 : "if.counts";
    return core::said(key, {{"what", core::said("if." + line.subject)}, {"weight", to}});
}

std::string about_left_out(std::string_view key, const WhatIf& line) {
    const std::string share =
        line.share ? core::said("if.share", {{"percent", 100.0 * *line.share}}) : std::string();
    return core::said(key, {{"what", line.subject}, {"share", share}});
}

/// What is otherwise: "the dark counted twice".
std::string clause(const plan::Plan& plan, const WhatIf& line) {
    switch (line.change) {
        case Change::weight:
            return about_weight(line);
        case Change::rule:
            return about_rule(plan, line);
        case Change::spacing:
            return core::said("if.spacing", {{"to", told(line.to)}, {"from", told(line.from)}});
        case Change::bandwidth:
            return core::said("if.bandwidth", {{"to", number_in(line.to)}, {"from", number_in(line.from)}});
        case Change::evening:
            return about_left_out("if.evening", line);
        case Change::station:
            return about_left_out("if.station", line);
        case Change::observer:
            return about_left_out("if.observer", line);
    }
    return {};
}

/// "site 4 moves to T88", "sites 2 and 5 fall out, and T12 comes in"
std::string outcome(const plan::Plan& plan, const WhatIf& line) {
    if (line.changes_nothing()) return core::said("if.nothing_changes");
    std::vector<std::string> tags;
    for (const std::size_t tree : line.came)
        tags.push_back(plan.trees.rows[tree].id);
    const std::string sites = numbers_in_words(line.lost), trees = core::all_of(tags);
    if (sites.empty()) return core::said_for(tags.size(), "if.come_in_as_well", {{"trees", trees}});
    if (line.lost.size() == tags.size())
        return core::said_for(tags.size(), "if.move", {{"sites", sites}, {"trees", trees}});
    const std::string out = core::said_for(line.lost.size(), "if.out", {{"sites", sites}});
    if (trees.empty()) return core::said("if.out_and_none_in", {{"out", out}});
    return core::said_for(tags.size(), "if.out_and_in", {{"out", out}, {"trees", trees}});
}

std::string_view to_text(Change change) {
    constexpr std::array<std::string_view, 7> names{"weight",  "rule",    "spacing", "bandwidth",
                                                    "evening", "station", "observer"};
    return names.at(static_cast<std::size_t>(change));
}

std::string about_trees_left_out(const plan::Plan& plan) {
    if (plan.what_if.left_out == 0) return {};
    return core::said("if.trees_left_out",
                      {{"took_part", plan.what_if.took_part}, {"left_out", plan.what_if.left_out}});
}

}  // namespace

std::string numbers_in_words(const std::vector<std::size_t>& numbers) {
    std::vector<std::string> words;
    words.reserve(numbers.size());
    for (const std::size_t number : numbers)
        words.push_back(std::to_string(number));
    return core::all_of(words);
}

std::string sentence_of(const plan::Plan& plan, const WhatIf& line) {
    return core::said("if", {{"clause", clause(plan, line)}, {"outcome", outcome(plan, line)}});
}

std::vector<std::string> what_if_sentences(const plan::Plan& plan) {
    std::vector<std::string> sentences;
    std::string unchanged;
    for (const WhatIf& line : plan.what_if.lines) {
        if (line.changes_nothing())
            unchanged = unchanged.empty() ? core::said("if.unchanged", {{"clause", clause(plan, line)}})
                                          : core::said("if.unchanged_next", {{"clauses", unchanged},
                                                                             {"clause", clause(plan, line)}});
        else
            sentences.push_back(sentence_of(plan, line));
    }
    if (!unchanged.empty()) sentences.push_back(unchanged + ".");
    if (!plan.what_if.finds_the_plan) sentences.push_back(core::said("if.short_search"));
    return sentences;
}

std::vector<std::string> what_if_in_short(const plan::Plan& plan) {
    std::vector<std::string> sentences;
    const auto tell = [&](std::string_view none, std::string_view some, Change change) {
        std::size_t lines = 0, unchanged = 0;
        for (const WhatIf& line : plan.what_if.lines) {
            if (line.change != change) continue;
            ++lines;
            unchanged += line.changes_nothing() ? 1 : 0;
        }
        const WhatIf* const most = siting::strongest(plan.what_if, change);
        if (most == nullptr) return;
        sentences.push_back(
            core::said(unchanged == lines ? none : some, {{"unchanged", unchanged}, {"all", lines}}));
        if (!most->changes_nothing()) sentences.back() += " " + sentence_of(plan, *most);
    };
    tell("if.no_weight_changes_it", "if.weights_that_change_nothing", Change::weight);
    tell("if.no_limit_changes_it", "if.limits_that_change_nothing", Change::rule);
    return sentences;
}

core::Object what_if_document(const plan::Plan& plan) {
    core::List lines, sentences;
    for (const WhatIf& line : plan.what_if.lines) {
        core::List came;
        for (const std::size_t tree : line.came)
            came.emplace_back(plan.trees.rows[tree].id);
        lines.emplace_back(core::Object{{"change", to_text(line.change)},
                                        {"subject", line.subject},
                                        {"from", line.from},
                                        {"to", line.to},
                                        {"share_of_flight", line.share},
                                        {"sites_lost", core::List(line.lost.begin(), line.lost.end())},
                                        {"trees_in", std::move(came)},
                                        {"sentence", sentence_of(plan, line)}});
    }
    for (std::string& sentence : what_if_sentences(plan))
        sentences.emplace_back(std::move(sentence));
    const std::string left_out = about_trees_left_out(plan);
    return {{"sentences", std::move(sentences)},
            {"lines", std::move(lines)},
            {"trees_took_part", plan.what_if.took_part},
            {"trees_left_out", plan.what_if.left_out},
            {"why_left_out", left_out.empty() ? core::Document() : core::Document(left_out)}};
}

}  // namespace roostward::report
