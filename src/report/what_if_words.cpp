#include "roostward/report/what_if_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "roostward/report/text_block.hpp"

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
        return fmt::format("{:.6g}", *number);
    std::vector<std::string> words;
    for (const core::Document& word : std::get<core::List>(document.value()))
        words.push_back(std::get<std::string>(word.value()));
    return listed(words, "or");
}

/// A key and how it is said; {0} is the value tried, {1} the plan's.
struct Phrase {
    std::string_view key, words;
};
constexpr std::array rules{
    Phrase{"suitability.conditions", "trees in {0} instead of {1} condition were fit"},
    Phrase{"suitability.min_dbh_cm", "a trunk had to be {0} cm thick instead of {1} cm"},
    Phrase{"suitability.min_height_m", "a tree had to be {0} m high instead of {1} m"},
    Phrase{"suitability.gap_height_m", "canopy up to {0} m instead of {1} m counted as open"},
    Phrase{"suitability.gap_area_m2", "{0} m² instead of {1} m² of open ground made a gap"},
    Phrase{"suitability.roost_reach_m", "a roost had to be {0} m off instead of {1} m"},
    Phrase{"suitability.keep_from_m", "boxes of other animals had to be {0} m off instead of {1} m"},
    Phrase{"suitability.lamp_doubtful_m", "a lamp had to be {0} m off instead of {1} m"},
    Phrase{"suitability.lux_doubtful", "lamp light had to stay below {0} lx instead of {1} lx"},
    Phrase{"suitability.road_m", "a carriageway had to be {0} m off instead of {1} m"},
    Phrase{"suitability.crossing_m", "a route's way over a road had to be {0} m off instead of {1} m"},
    Phrase{"suitability.work_years", "works due within {0} years instead of {1} counted"},
    Phrase{"suitability.inspection_years", "a judgement of safety held for {0} years instead of {1}"},
    Phrase{"activity.min_watch_hours", "{0} effective hours instead of {1} made a place watched"},
};

std::string about_rule(const plan::Plan& plan, const WhatIf& line) {
    const std::string to = told(line.to), from = told(line.from);
    const auto phrase = std::ranges::find(rules, std::string_view(line.subject), &Phrase::key);
    if (phrase != rules.end()) return fmt::format(fmt::runtime(phrase->words), to, from);
    for (std::size_t layer = 0; layer < plan.surroundings.avoid.size(); ++layer) {
        const trees::AvoidLayer& avoid = plan.surroundings.avoid[layer];
        if (line.subject == fmt::format("avoid[{}].within_m", layer))
            return fmt::format("{} m instead of {} m had to be kept from this: {}", to, from,
                               avoid.reason.empty() ? avoid.file : avoid.reason);
    }
    return fmt::format("{} were {} instead of {}", line.subject, to, from);
}

constexpr std::array weights{
    Phrase{"weights.fitness_share", "all that the place takes off"},
    Phrase{"weights.approach", "the free way in"},
    Phrase{"weights.sun", "the sun"},
    Phrase{"weights.dark", "the dark"},
    Phrase{"weights.quiet", "the distance to roads"},
};

std::string about_weight(const WhatIf& line) {
    const auto phrase = std::ranges::find(weights, std::string_view(line.subject), &Phrase::key);
    const double to = number_in(line.to), factor = to / number_in(line.from);
    const std::string how = factor == 0.0   ? "did not count"
                            : factor == 0.5 ? "counted half"
                            : factor == 2.0 ? "counted twice"
                                            : fmt::format("counted {:.6g}", to);
    return fmt::format("{} {}", phrase->words, how);
}

/// What is otherwise: "the dark counted twice".
std::string clause(const plan::Plan& plan, const WhatIf& line) {
    const std::string share =
        line.share ? fmt::format(" ({:.0f} % of the flight)", 100.0 * *line.share) : std::string();
    switch (line.change) {
        case Change::weight:
            return about_weight(line);
        case Change::rule:
            return about_rule(plan, line);
        case Change::spacing:
            return fmt::format("sites had to stand {} m apart instead of {} m", told(line.to),
                               told(line.from));
        case Change::bandwidth:
            return fmt::format("flights were spread {:.1f} m to either side instead of {:.1f} m",
                               number_in(line.to), number_in(line.from));
        case Change::evening:
            return fmt::format("the evening of {}{} were left out", line.subject, share);
        case Change::station:
            return fmt::format("the place of watch {}{} were left out", line.subject, share);
        case Change::observer:
            return fmt::format("{}{} were left out", line.subject, share);
    }
    return {};
}

/// "site 4 moves to T88", "sites 2 and 5 fall out, and T12 comes in"
std::string outcome(const plan::Plan& plan, const WhatIf& line) {
    if (line.changes_nothing()) return "nothing changes";
    std::vector<std::string> sites, trees;
    for (const std::size_t site : line.lost)
        sites.push_back(std::to_string(site));
    for (const std::size_t tree : line.came)
        trees.push_back(plan.trees.rows[tree].id);
    const bool one = sites.size() == 1;
    const std::string who = sites.empty() ? "" : fmt::format("site{} {}", one ? "" : "s", listed(sites));
    if (sites.empty())
        return fmt::format("{} come{} in as well", listed(trees), trees.size() == 1 ? "s" : "");
    if (sites.size() == trees.size())
        return fmt::format("{} {} to {}", who, one ? "moves" : "move", listed(trees));
    const std::string out = fmt::format("{} {} out", who, one ? "falls" : "fall");
    if (trees.empty()) return out + ", and no tree comes in";
    return fmt::format("{}, and {} come{} in", out, listed(trees), trees.size() == 1 ? "s" : "");
}

std::string_view to_text(Change change) {
    constexpr std::array<std::string_view, 7> names{"weight",  "rule",    "spacing", "bandwidth",
                                                    "evening", "station", "observer"};
    return names.at(static_cast<std::size_t>(change));
}

std::string about_trees_left_out(const plan::Plan& plan) {
    if (plan.what_if.left_out == 0) return {};
    return fmt::format(
        "To save time {} trees took part and {} did not: of those that can be chosen the best 2,000 did, of "
        "those that one other limit could bring in the 2,000 with most flight, and as many of those hardly "
        "watched.",
        plan.what_if.took_part, plan.what_if.left_out);
}

}  // namespace

std::string sentence_of(const plan::Plan& plan, const WhatIf& line) {
    return fmt::format("If {}: {}.", clause(plan, line), outcome(plan, line));
}

std::vector<std::string> what_if_sentences(const plan::Plan& plan) {
    std::vector<std::string> sentences;
    std::string unchanged;
    for (const WhatIf& line : plan.what_if.lines) {
        if (line.changes_nothing())
            unchanged += (unchanged.empty() ? "Nothing changes if " : "; if ") + clause(plan, line);
        else
            sentences.push_back(sentence_of(plan, line));
    }
    if (!unchanged.empty()) sentences.push_back(unchanged + ".");
    if (!plan.what_if.finds_the_plan)
        sentences.emplace_back(
            "These lines come from a short search that does not find the plan's own set: they may name sites "
            "that would stay.");
    return sentences;
}

std::vector<std::string> what_if_in_short(const plan::Plan& plan) {
    std::vector<std::string> sentences;
    const auto tell = [&](std::string_view of, Change change) {
        std::size_t lines = 0, unchanged = 0;
        for (const WhatIf& line : plan.what_if.lines) {
            if (line.change != change) continue;
            ++lines;
            unchanged += line.changes_nothing() ? 1 : 0;
        }
        const WhatIf* const most = siting::strongest(plan.what_if, change);
        if (most == nullptr) return;
        sentences.push_back(unchanged == lines
                                ? fmt::format("None of {} other {} changes anything.", lines, of)
                                : fmt::format("{} of {} other {} change nothing.", unchanged, lines, of));
        if (!most->changes_nothing()) sentences.back() += " " + sentence_of(plan, *most);
    };
    tell("weights", Change::weight);
    tell("limits", Change::rule);
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
