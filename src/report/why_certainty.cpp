#include "why_certainty.hpp"

#include <algorithm>
#include <vector>

#include "roostward/core/catalogue.hpp"
#include "roostward/report/acceptability_words.hpp"
#include "roostward/report/text_block.hpp"

namespace roostward::report {

namespace {

using core::Document;

constexpr std::size_t most_of_a_group = 5;

/// Tags of the ranked trees that share its group, best first.
std::vector<std::string> group_of(const FinishedPlan& plan, const FinishedTree& tree) {
    std::vector<std::string> tags;
    for (const Document& feature : plan.ranked.at("features").list()) {
        const FinishedTree other(feature);
        if (other == tree || other.at("group") != tree.at("group")) continue;
        if (tags.size() == most_of_a_group) {
            tags.push_back(core::said("group.others"));
            break;
        }
        tags.emplace_back(other.id());
    }
    return tags;
}

std::string stays(const FinishedPlan& plan, const FinishedTree& tree) {
    const std::string_view told = site_of(plan, tree).at("stays").text();
    if (!told.empty()) return std::string(told);
    const auto evenings = tree.at("stays_chosen").number(),
               weights = tree.at("stays_chosen_weights").number();
    if (!evenings) return {};
    const Document& certainty = plan.plan.at("summary").at("certainty");
    siting::Certainty redrawn;
    redrawn.evenings = static_cast<std::size_t>(certainty.at("evenings").number().value_or(0.0));
    redrawn.redraws = static_cast<std::size_t>(certainty.at("redraws").number().value_or(0.0));
    const std::string share = share_of_redraws(redrawn, *evenings);
    if (share.empty()) return {};
    return core::said(weights ? "stays.shares" : "stays.share",
                      {{"share", share}, {"weights", 100.0 * weights.value_or(0.0)}});
}

bool holds(const core::List& list, const Document& wanted) {
    return std::ranges::find(list, wanted) != list.end();
}

}  // namespace

const core::Document& site_of(const FinishedPlan& plan, const FinishedTree& tree) {
    return member_with(plan.plan.at("summary").at("sites"), "tree", tree.id());
}

std::string how_sure_of(const FinishedPlan& plan, const FinishedTree& tree) {
    std::string text;
    if (const std::string sure = stays(plan, tree); !sure.empty()) text += wrapped(sure, 2, "- ");
    if (const std::string_view group = tree.at("group").text(); !group.empty()) {
        const std::vector<std::string> others = group_of(plan, tree);
        if (!others.empty())
            text += wrapped(core::said("group.with", {{"group", group}, {"others", core::all_of(others)}}), 2,
                            "- ");
    }
    const Document& reserve = site_of(plan, tree).at("reserve");
    if (!reserve.is_null())
        text +=
            wrapped(core::said("sure.if_unsafe", {{"tree", reserve.at("tree").text()},
                                                  {"metres", reserve.at("away_m").number().value_or(0.0)}}),
                    2, "- ");
    return text.empty() ? text : "\n" + core::said("sure.head") + "\n" + text;
}

std::string what_would_change_it(const FinishedPlan& plan, const FinishedTree& tree) {
    std::string text;
    for (const Document& line : plan.plan.at("summary").at("what_if").at("lines").list()) {
        const bool falls = !tree.at("site").is_null() && holds(line.at("sites_lost").list(), tree.at("site"));
        if (falls || holds(line.at("trees_in").list(), tree.at("tree")))
            text += wrapped(line.at("sentence").text(), 2, "- ");
    }
    return text.empty() ? text : "\n" + core::said("if.head") + "\n" + text;
}

}  // namespace roostward::report
