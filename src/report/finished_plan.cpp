#include "roostward/report/finished_plan.hpp"

#include <fmt/format.h>

#include "roostward/core/error.hpp"
#include "roostward/report/plan_document.hpp"

namespace roostward::report {

std::string_view FinishedTree::state() const {
    const std::string_view told = at("state").text();
    return told.empty() ? trees::to_text(trees::State::can_be_chosen) : told;
}

std::string FinishedTree::rules() const {
    std::string rules;
    for (const core::Document& reason : at("reasons").list())
        rules += fmt::format("{}{}", rules.empty() ? "" : ", ", reason.at("rule").text());
    return rules;
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

void require_our_format(const FinishedPlan& plan) {
    const auto format = plan.plan.at("format").number();
    const core::Place place{plan.folder + "/plan.json", {}, {}, {}};
    if (plan.plan.at("program").text() != "roostward" || !format)
        throw core::Error(core::Fault::usage, place, "is no plan of ours: give the folder that plan wrote");
    if (plan.plan.at("public").truth())
        throw core::Error(
            core::Fault::usage, place,
            "is of a copy for everybody, which names no tree: give the folder of the plan itself");
    if (*format > plan_format)
        throw core::Error(core::Fault::usage, place,
                          fmt::format("is of format {:g}, and this program knows formats up to {}: take a "
                                      "newer one, or make the plan again",
                                      *format, plan_format));
}

}  // namespace roostward::report
