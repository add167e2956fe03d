#include "roostward/report/finished_plan.hpp"

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/core/folder_index.hpp"
#include "roostward/trees/suitability.hpp"

namespace roostward::report {

std::string_view FinishedTree::state() const {
    const std::string_view told = at("state").text();
    return told.empty() ? trees::to_text(trees::State::can_be_chosen) : told;
}

std::string FinishedTree::state_in_words() const {
    return core::shown("state", state());
}

std::vector<std::string_view> FinishedTree::rules() const {
    std::vector<std::string_view> rules;
    for (const core::Document& reason : at("reasons").list())
        rules.push_back(reason.at("rule").text());
    return rules;
}

std::string FinishedTree::rules_in_words() const {
    std::string words;
    for (const std::string_view rule : rules())
        words += (words.empty() ? "" : ", ") + core::shown("rule", rule);
    return words;
}

core::GeographicPoint FinishedTree::place() const {
    const core::List& at = feature_->at("geometry").at("coordinates").list();
    if (at.size() < 2) return {};
    return {core::Degrees(at[0].number().value_or(0.0)), core::Degrees(at[1].number().value_or(0.0))};
}

std::vector<FinishedTree> trees_of(const FinishedPlan& plan) {
    std::vector<FinishedTree> trees;
    for (const core::Document* layer : {&plan.ranked, &plan.others})
        for (const core::Document& feature : layer->at("features").list())
            trees.emplace_back(feature);
    return trees;
}

const core::Document& member_with(const core::Document& list, std::string_view key, std::string_view text) {
    static const core::Document none;
    for (const core::Document& member : list.list())
        if (member.at(key).text() == text) return member;
    return none;
}

std::string told_number(const FinishedPlan& plan) {
    const std::string_view number = plan.plan.at("number").text();
    if (number.empty()) return core::said("plan.no_number");
    return core::said(
        plan.plan.at("summary").at("screening").truth() ? "plan.number_of_screening" : "plan.number",
        {{"number", number}});
}

void require_our_format(const FinishedPlan& plan) {
    const auto format = plan.plan.at("format").number();
    const core::Place place{plan.folder + "/plan.json", {}, {}, {}};
    if (plan.plan.at("program").text() != core::program_name || !format)
        throw core::Error(core::Fault::usage, place, core::said("error.no_plan_of_ours"));
    if (plan.plan.at("public").truth())
        throw core::Error(core::Fault::usage, place, core::said("error.public_copy"));
    if (!plan.plan.at("ranking_only").object().empty())
        throw core::Error(core::Fault::usage, place, core::said("error.ranking_only"));
    if (*format > core::plan_format)
        throw core::Error(
            core::Fault::usage, place,
            core::said("error.newer_format", {{"format", *format}, {"known", core::plan_format}}));
}

}  // namespace roostward::report
