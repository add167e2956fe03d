#include "roostward/report/choice_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <vector>

namespace roostward::report {

namespace {

using core::Object;

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
    return fmt::format("{} {}", count, count == 1 ? one : many);
}

/// owner "council", or owner not told
std::string group_name(siting::Shared by, const std::string& name) {
    return name.empty() ? fmt::format("{} not told", siting::to_text(by))
                        : fmt::format("{} \"{}\"", siting::to_text(by), name);
}

/// "3 trees stand too near to chosen ones · …"; empty where no rule keeps a tree with enough evidence out.
std::string what_keeps_trees_out(const plan::Plan& plan) {
    const siting::Choice& choice = plan.choice;
    std::string text;
    const auto add = [&](const std::string& part) { text += (text.empty() ? "" : "; ") + part; };
    if (choice.too_near > 0)
        add(counted(choice.too_near, "tree stands", "trees stand") + " too near to a chosen one");
    for (const siting::FullGroup& group : choice.full)
        add(fmt::format("at most {} of {} keeps {} out", group.quota.count,
                        group_name(group.quota.by, group.name), counted(group.kept_out, "tree", "trees")));
    if (choice.too_dear > 0)
        add(fmt::format("{} more than is left of the budget",
                        counted(choice.too_dear, "tree costs", "trees cost")));
    return text;
}

std::string how_good(const plan::Plan& plan) {
    const siting::Choice& choice = plan.choice;
    if (choice.proven) return "By these figures no other set that keeps the rules scores more.";
    return fmt::format(
        "Another set that keeps the rules may score up to {:.2g} % higher: the search was cut short.",
        100.0 * choice.gap());
}

std::string about_budget(const plan::Plan& plan) {
    if (!plan.choice.spent) return {};
    return fmt::format(" The sites cost {:g} of the budget of {:g}.", *plan.choice.spent,
                       *plan.settings.choice.budget);
}

/// The chosen tree that stands too near; of several the first site.
std::optional<std::size_t> too_near(const plan::Plan& plan, std::size_t tree) {
    for (const std::size_t other : plan.chosen)
        if (core::distance(plan.trees.rows[tree].stem, plan.trees.rows[other].stem) <
            plan.settings.choice.spacing)
            return other;
    return std::nullopt;
}

/// The quota that has no room for this tree.
const siting::Quota* full_quota(const plan::Plan& plan, std::size_t tree) {
    for (const siting::Quota& quota : plan.settings.choice.at_most) {
        const std::string group = siting::group_of(plan.trees.rows[tree], quota.by);
        const auto same = std::ranges::count_if(plan.chosen, [&](std::size_t other) {
            return siting::group_of(plan.trees.rows[other], quota.by) == group;
        });
        if (static_cast<std::size_t>(same) >= quota.count) return &quota;
    }
    return nullptr;
}

std::string method(const siting::Choice& choice) {
    return choice.by_cbc ? "branch and bound, then COIN-OR CBC" : "branch and bound";
}

}  // namespace

std::string outcome(const plan::Plan& plan) {
    const std::size_t wanted = plan.settings.choice.sites, got = plan.chosen.size();
    if (got == 0) return "No tree can be chosen. The lines below say which rule removes how many.";
    const std::string kept_out = what_keeps_trees_out(plan);
    const std::string proof = how_good(plan) + about_budget(plan);
    if (got < wanted)
        return fmt::format("{} of the {} sites asked for: {}. {}", got, wanted,
                           kept_out.empty() ? "no other tree has enough evidence" : kept_out, proof);
    const bool quota_or_budget = !plan.choice.full.empty() || plan.choice.too_dear > 0;
    return fmt::format("{} chosen. {}{}", counted(got, "site", "sites"), proof,
                       quota_or_budget ? fmt::format(" Kept out: {}.", kept_out) : "");
}

std::string why_not_chosen(const plan::Plan& plan, std::size_t tree) {
    const auto& candidate = plan.candidates[tree];
    const auto& record = plan.trees.rows[tree];
    const auto& choice = plan.settings.choice;
    if (candidate.wish == siting::Wish::never) return "Not chosen: the site file says never.";
    if (!candidate.enough_evidence) return "Not chosen: too little flight or too few evenings to build on.";
    if (choice.budget && !record.cost) return "Not chosen: its cost is not told, and there is a budget.";
    if (const auto other = too_near(plan, tree)) {
        const core::Metres away = core::distance(record.stem, plan.trees.rows[*other].stem);
        const bool better = candidate.rank < plan.candidates[*other].rank;
        return fmt::format("Not chosen: {:.0f} m from site {} ({}), closer than {:g} m{}.", away.value(),
                           *plan.candidates[*other].site, plan.trees.rows[*other].id, choice.spacing.value(),
                           better ? "; without it the set scores more" : "");
    }
    if (const siting::Quota* quota = full_quota(plan, tree))
        return fmt::format("Not chosen: {} has the {} that at_most allows.",
                           group_name(quota->by, siting::group_of(record, quota->by)),
                           counted(quota->count, "site", "sites"));
    const double left = choice.budget.value_or(0.0) - plan.choice.spent.value_or(0.0);
    if (choice.budget && *record.cost > left)
        return fmt::format("Not chosen: it costs {:g}, and {:g} is left of the budget.", *record.cost, left);
    if (choice.sites == 1) return "Not chosen: a better tree took the one site asked for.";
    return fmt::format("Not chosen: better trees took the {} sites asked for.", choice.sites);
}

std::string why_chosen(const siting::Candidate& candidate) {
    std::string text = fmt::format("Chosen as site {}", *candidate.site);
    if (candidate.wish != siting::Wish::must) return text + ".";
    return text + (candidate.enough_evidence
                       ? ": the site file says that it must be."
                       : ": the site file says that it must be, though there is too little "
                         "flight or too few evenings to build on.");
}

Object choice_document(const plan::Plan& plan) {
    const siting::Choice& choice = plan.choice;
    core::List full;
    for (const siting::FullGroup& group : choice.full)
        full.emplace_back(Object{{"field", siting::to_text(group.quota.by)},
                                 {"name", group.name},
                                 {"at_most", group.quota.count},
                                 {"trees_kept_out", group.kept_out}});
    return {{"method", method(choice)},
            {"total_score", choice.total_score},
            {"bound", choice.bound},
            {"gap", choice.gap()},
            {"proven", choice.proven},
            {"ties_settled", choice.unique},
            {"trees_considered", choice.considered},
            {"nodes", choice.nodes},
            {"trees_too_near", choice.too_near},
            {"full_groups", std::move(full)},
            {"spent", choice.spent},
            {"trees_too_dear", choice.too_dear},
            {"sentence", outcome(plan)}};
}

}  // namespace roostward::report
