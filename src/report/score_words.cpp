#include "roostward/report/score_words.hpp"

#include <algorithm>

#include "roostward/core/catalogue.hpp"
#include "roostward/siting/make_up.hpp"

namespace roostward::report {

namespace {

core::Object part_document(const siting::ScorePart& part) {
    const auto& range = part.range;
    return {{"measure", part.measure},
            {"value", part.value},
            {"unit", part.unit},
            {"utility", part.utility},
            {"weight", part.weight},
            {"contribution", part.contribution},
            {"contribution_low", range ? core::Document(range->low) : core::Document()},
            {"contribution_high", range ? core::Document(range->high) : core::Document()}};
}

core::Object tree_document(const plan::Plan& plan, std::size_t tree) {
    const siting::Candidate& candidate = plan.candidates[tree];
    core::List parts;
    for (const auto& part :
         siting::make_up(candidate, plan.trees.rows[tree], plan.reference_density, plan.settings))
        parts.emplace_back(part_document(part));
    return {{"tree", plan.trees.rows[tree].id}, {"score", candidate.score}, {"parts", std::move(parts)}};
}

}  // namespace

core::Object scores_document(const plan::Plan& plan) {
    core::List trees;
    for (std::size_t i = 0; i < std::min(most_scores, plan.ranked.size()); ++i)
        trees.emplace_back(tree_document(plan, plan.ranked[i]));
    for (std::size_t tree = 0; tree < plan.candidates.size(); ++tree) {
        const auto& would_rank = plan.candidates[tree].would_rank;
        if (would_rank && *would_rank <= most_scores) trees.emplace_back(tree_document(plan, tree));
    }
    return {{"how", core::said("score.how")}, {"of_the_best", most_scores}, {"trees", std::move(trees)}};
}

}  // namespace roostward::report
