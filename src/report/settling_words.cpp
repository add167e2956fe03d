#include "roostward/report/settling_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "roostward/core/catalogue.hpp"
#include "roostward/report/text_block.hpp"

namespace roostward::report {

namespace {

constexpr std::size_t most_shown = 2;

/// The reasons that somebody can settle.
std::vector<const trees::Reason*> open_questions(const trees::Verdict& verdict) {
    std::vector<const trees::Reason*> open;
    for (const trees::Reason& reason : verdict.reasons)
        if (reason.state == trees::State::settle_first) open.push_back(&reason);
    return open;
}

}  // namespace

std::string who_decides(const trees::Verdict& verdict) {
    std::vector<std::string> people;
    for (const auto& reason : verdict.reasons)
        if (!reason.who.empty() && std::ranges::find(people, reason.who) == people.end())
            people.push_back(reason.who);
    std::string all;
    for (const auto& person : people)
        all += (all.empty() ? "" : ", ") + core::shown("who", person);
    return all;
}

std::string ask_the(std::string_view who, std::string_view what) {
    return core::said("settling.ask_the", {{"who", core::shown("who", who)}, {"what", what}});
}

std::string what_to_ask(const trees::Verdict& verdict) {
    std::string all;
    for (const trees::Reason* reason : open_questions(verdict))
        all = in_a_row({all, ask_the(reason->who, reason->ask)});
    return all;
}

std::string settling_in_short(const plan::Plan& plan) {
    if (plan.worth_settling.empty()) return {};
    std::string trees;
    const std::size_t shown = std::min(most_shown, plan.worth_settling.size());
    for (std::size_t i = 0; i < shown; ++i) {
        const std::size_t tree = plan.worth_settling[i];
        trees += fmt::format("{}{} ({})", i == 0 ? "" : ", ", plan.trees.rows[tree].id,
                             who_decides(plan.candidates[tree].verdict));
    }
    const std::size_t more = plan.worth_settling.size() - shown;
    return core::said(more > 0 ? "settling.short_and_more" : "settling.short",
                      {{"trees", trees}, {"more", more}});
}

core::List settling_document(const plan::Plan& plan) {
    core::List list;
    for (const std::size_t tree : plan.worth_settling) {
        const auto& candidate = plan.candidates[tree];
        core::List questions;
        for (const trees::Reason* reason : open_questions(candidate.verdict))
            questions.emplace_back(core::Object{{"rule", reason->rule},
                                                {"who", reason->who},
                                                {"ask", reason->ask},
                                                {"why", reason->sentence}});
        list.emplace_back(core::Object{{"tree", plan.trees.rows[tree].id},
                                       {"would_rank", candidate.would_rank},
                                       {"score", candidate.score},
                                       {"questions", std::move(questions)}});
    }
    return list;
}

std::string owners_paragraph(const plan::Plan& plan) {
    return owners_paragraph(plan, plan.chosen);
}

std::string owners_paragraph(const plan::Plan& plan, const std::vector<std::size_t>& chosen) {
    if (chosen.empty()) return {};
    std::vector<std::string> trees;
    trees.reserve(chosen.size());
    for (const std::size_t tree : chosen)
        trees.push_back(plan.trees.rows[tree].id);
    const std::size_t boxes = plan.mounting.boxes;
    return core::said("owner.question", {{"boxes", core::said_for(boxes, "owner.boxes")},
                                         {"trees", core::said_for(trees.size(), "owner.trees")},
                                         {"tags", core::all_of(trees)}});
}

}  // namespace roostward::report
