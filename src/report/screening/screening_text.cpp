#include <fmt/format.h>

#include <algorithm>

#include "roostward/core/catalogue.hpp"
#include "roostward/report/screening.hpp"
#include "roostward/report/tally.hpp"
#include "roostward/report/text_block.hpp"
#include "roostward/report/words.hpp"
#include "screening/screening_words.hpp"

namespace roostward::report {

namespace {

constexpr std::size_t rules_told = 3;

/// "trunk too thin 200, no canopy 12, and others"
std::string commonest_rules(const plan::Plan& plan) {
    const std::vector<Counted> rules = reasons(plan, trees::State::ruled_out);
    std::string text;
    for (std::size_t i = 0; i < std::min(rules_told, rules.size()); ++i)
        text +=
            fmt::format("{}{} {}", i == 0 ? "" : ", ", core::shown("rule", rules[i].name), rules[i].count);
    return rules.size() > rules_told ? core::said("screening.more_rules", {{"rules", text}}) : text;
}

std::string people(const plan::Plan& plan) {
    std::string text;
    for (const Counted& who : deciders(plan))
        text += (text.empty() ? "" : ", ") +
                core::said("screening.by_who", {{"who", core::shown("who", who.name)}, {"count", who.count}});
    return text;
}

}  // namespace

std::vector<std::string> screening_sentences(const plan::Plan& plan) {
    const std::size_t could = trees_in(plan, trees::State::not_watched),
                      settle = trees_in(plan, trees::State::settle_first),
                      out = trees_in(plan, trees::State::ruled_out);
    std::vector<std::string> sentences;
    if (could > 0)
        sentences.push_back(core::said_for(could, "screening.could", {{"all", plan.candidates.size()}}));
    else
        sentences.push_back(core::said("screening.none"));
    const core::Filling who{"who", people(plan)}, rules{"rules", commonest_rules(plan)};
    if (settle > 0) sentences.push_back(core::said_for(settle, "screening.settle", {who}));
    if (out > 0) sentences.push_back(core::said_for(out, "screening.ruled_out", {rules}));
    return sentences;
}

std::string screening_text(const plan::Plan& plan, const std::string& folder) {
    std::string text = fmt::format("{} · {} · {}\n", plan.settings.site_name, plan.settings.profile.name,
                                   core::said("plan.number", {{"number", plan.number}}));
    if (const std::string unchecked = nobody_checked(plan.checks); !unchecked.empty())
        text += wrapped(unchecked);
    text += wrapped(core::said("screening.first"), 2);
    for (const std::string& sentence : screening_sentences(plan))
        text += wrapped(sentence, 2);
    if (trees_in(plan, trees::State::ruled_out) < plan.candidates.size())
        text += wrapped(core::said("screening.next"), 2);
    text += wrapped(cautions_in_short("report.html"), 2);
    return text + wrapped(core::said("screening.written", {{"folder", folder}}), 2);
}

}  // namespace roostward::report
