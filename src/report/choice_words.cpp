#include "roostward/report/choice_words.hpp"

#include <algorithm>
#include <optional>
#include <vector>

#include "roostward/core/catalogue.hpp"
#include "roostward/report/evidence_words.hpp"
#include "roostward/report/text_block.hpp"

namespace roostward::report {

namespace {

using core::Object;

/// owner "council", or owner not told
std::string group_name(siting::Shared by, const std::string& name) {
    const std::string field = core::shown("shared", siting::to_text(by));
    return core::said(name.empty() ? "choice.group_not_told" : "choice.group",
                      {{"field", field}, {"name", name}});
}

/// "3 trees stand too near to chosen ones; …"; empty where no rule keeps a tree with enough evidence out.
std::string what_keeps_trees_out(const plan::Plan& plan) {
    const siting::Choice& choice = plan.choice;
    std::string text;
    const auto add = [&](const std::string& part) { text += (text.empty() ? "" : "; ") + part; };
    if (choice.too_near > 0) add(core::said_for(choice.too_near, "choice.too_near"));
    for (const siting::FullGroup& group : choice.full)
        add(core::said_for(group.kept_out, "choice.full",
                           {{"most", group.quota.count}, {"group", group_name(group.quota.by, group.name)}}));
    if (choice.too_dear > 0) add(core::said_for(choice.too_dear, "choice.too_dear"));
    return text;
}

std::string how_good(const plan::Plan& plan) {
    const siting::Choice& choice = plan.choice;
    if (choice.proven) return core::said("choice.proven");
    return core::said("choice.cut_short", {{"percent", 100.0 * choice.gap()}});
}

std::string about_budget(const plan::Plan& plan) {
    if (!plan.choice.spent) return {};
    return core::said("choice.spent",
                      {{"spent", *plan.choice.spent}, {"budget", *plan.settings.choice.budget}});
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
    return core::said(choice.by_cbc ? "choice.by_cbc" : "choice.by_search");
}

}  // namespace

std::optional<TooNear> too_near(const plan::Plan& plan, std::size_t tree) {
    std::optional<TooNear> nearest;
    for (const std::size_t other : plan.chosen) {
        const core::Metres away = core::distance(plan.trees.rows[tree].stem, plan.trees.rows[other].stem);
        if (other != tree && away < (nearest ? nearest->away : plan.settings.choice.spacing))
            nearest = {other, away};
    }
    return nearest;
}

std::string outcome(const plan::Plan& plan) {
    const std::size_t wanted = plan.settings.choice.sites, got = plan.chosen.size();
    if (got == 0 && plan.ranked.empty()) return core::said("choice.nothing");
    if (got == 0 && trees_with_too_little(plan) > 0) return nothing_chosen_yet(plan);
    std::string kept_out = what_keeps_trees_out(plan);
    const std::string proof = in_a_row({how_good(plan), about_budget(plan)});
    if (got == 0)
        return core::said("choice.nothing_kept",
                          {{"kept_out", kept_out.empty() ? core::said("choice.no_other") : kept_out}});
    if (got < wanted) {
        if (const std::size_t count = trees_with_too_little(plan))
            kept_out += (kept_out.empty() ? "" : "; ") + core::said_for(count, "choice.too_little");
        return core::said("choice.fewer",
                          {{"count", got},
                           {"wanted", wanted},
                           {"kept_out", kept_out.empty() ? core::said("choice.no_other") : kept_out},
                           {"proof", proof}});
    }
    const bool quota_or_budget = !plan.choice.full.empty() || plan.choice.too_dear > 0;
    return in_a_row({core::said_for(got, "choice.chosen"), proof,
                     quota_or_budget ? core::said("choice.kept_out", {{"kept_out", kept_out}}) : ""});
}

std::string why_not_chosen(const plan::Plan& plan, std::size_t tree) {
    const auto& candidate = plan.candidates[tree];
    const auto& record = plan.trees.rows[tree];
    const auto& choice = plan.settings.choice;
    if (candidate.wish == siting::Wish::never) return core::said("not_chosen.never");
    if (!candidate.enough_evidence)
        return core::said("not_chosen.evidence", {{"lacking", evidence_lacking(plan, tree)}});
    if (choice.budget && !record.cost) return core::said("not_chosen.no_cost");
    if (const auto other = too_near(plan, tree)) {
        const bool better = candidate.rank < plan.candidates[other->site].rank;
        return core::said(better ? "not_chosen.too_near_and_better" : "not_chosen.too_near",
                          {{"metres", other->away.value()},
                           {"site", *plan.candidates[other->site].site},
                           {"tree", plan.trees.rows[other->site].id},
                           {"spacing", choice.spacing.value()}});
    }
    if (const siting::Quota* quota = full_quota(plan, tree))
        return core::said_for(quota->count, "not_chosen.full",
                              {{"group", group_name(quota->by, siting::group_of(record, quota->by))}});
    const double left = choice.budget.value_or(0.0) - plan.choice.spent.value_or(0.0);
    if (choice.budget && *record.cost > left)
        return core::said("not_chosen.too_dear", {{"cost", *record.cost}, {"left", left}});
    return core::said_for(choice.sites, "not_chosen.better_trees");
}

std::string why_chosen(const siting::Candidate& candidate) {
    const std::string_view key = candidate.wish != siting::Wish::must ? "chosen"
                                 : candidate.enough_evidence          ? "chosen.must"
                                                                      : "chosen.must_without_evidence";
    return core::said(key, {{"site", *candidate.site}});
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
