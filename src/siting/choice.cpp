#include "roostward/siting/choice.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "choice_problem.hpp"
#include "choice_solve.hpp"
#include "evidence.hpp"

namespace roostward::siting {

namespace {

constexpr double millionths = 1e6, hundredths = 1e2;

GroupLimit limit_of(std::span<const Contender> contenders, const trees::Inventory& inventory, Quota quota) {
    GroupLimit limit;
    std::map<std::string, std::uint32_t> known;
    for (const Contender& contender : contenders) {
        std::string name = group_of(inventory.rows[contender.tree], quota.by);
        const auto next = static_cast<std::uint32_t>(known.size());
        limit.group.push_back(known.try_emplace(std::move(name), next).first->second);
    }
    limit.room.assign(known.size(), quota.count);
    return limit;
}

/// The contenders must come best first.
ChoiceProblem problem_of(std::span<const Contender> contenders, const trees::Inventory& inventory,
                         const ChoiceSettings& settings) {
    ChoiceProblem problem{{}, contenders.size(), settings.sites, settings.spacing, {}, {}};
    if (settings.budget) problem.budget = std::llround(hundredths * *settings.budget);
    for (std::size_t i = 0; i < contenders.size(); ++i) {
        const trees::Tree& tree = inventory.rows[contenders[i].tree];
        problem.options.push_back({contenders[i].tree, std::llround(millionths * contenders[i].score), i,
                                   tree.stem,
                                   settings.budget ? std::llround(hundredths * tree.cost.value()) : 0});
    }
    for (const Quota& quota : settings.at_most)
        problem.limits.push_back(limit_of(contenders, inventory, quota));
    return problem;
}

std::vector<std::size_t> musts_among(std::span<const Contender> contenders) {
    std::vector<std::size_t> musts;
    for (std::size_t i = 0; i < contenders.size(); ++i)
        if (contenders[i].must) musts.push_back(i);
    return musts;
}

/// Musts and what was chosen beside them, best placed first, as indices of options.
std::vector<std::size_t> whole_set(const ChoiceProblem& problem, std::vector<std::size_t> musts,
                                   const Solved& beside_them) {
    std::vector<std::size_t> trees = beside_them.trees;
    std::ranges::sort(trees);
    for (std::size_t i = 0; i < problem.options.size(); ++i)
        if (std::ranges::binary_search(trees, problem.options[i].tree)) musts.push_back(i);
    std::ranges::sort(musts);
    return musts;
}

/// Tells of each option left out by which single rule, if it is only one.
void tell_what_stops(Choice& choice, const ChoiceProblem& problem, const std::vector<std::size_t>& set,
                     const trees::Inventory& inventory, const ChoiceSettings& settings) {
    Room room(problem);
    for (const std::size_t option : set)
        room.take(option);
    if (problem.budget) choice.spent = *settings.budget - static_cast<double>(room.money()) / hundredths;
    std::map<std::pair<std::size_t, std::string>, std::size_t> kept_out;
    for (std::size_t i = 0; i < problem.options.size(); ++i) {
        if (std::ranges::binary_search(set, i)) continue;
        const bool near =
            std::ranges::any_of(set, [&](std::size_t other) { return too_close(problem, i, other); });
        const bool dear = problem.budget && problem.options[i].cost > room.money();
        std::vector<std::size_t> full;
        for (std::size_t l = 0; l < problem.limits.size(); ++l)
            if (room.in_group(l, problem.limits[l].group[i]) == 0) full.push_back(l);
        if (near && !dear && full.empty()) ++choice.too_near;
        if (!near && dear && full.empty()) ++choice.too_dear;
        if (!near && !dear && full.size() == 1) {
            const trees::Tree& tree = inventory.rows[problem.options[i].tree];
            ++kept_out[{full.front(), group_of(tree, settings.at_most[full.front()].by)}];
        }
    }
    for (const auto& [group, count] : kept_out)
        choice.full.push_back({settings.at_most[group.first], group.second, count});
}

}  // namespace

std::vector<std::size_t> best_apart(std::vector<Contender> contenders, const trees::Inventory& inventory,
                                    const ChoiceSettings& settings) {
    std::ranges::sort(contenders, better);
    const ChoiceProblem problem = problem_of(contenders, inventory, settings);
    const std::vector<std::size_t> musts = musts_among(contenders);
    const Solved solved = solve_quickly(beside(problem, musts));
    if (musts.empty()) return solved.trees;
    std::vector<std::size_t> trees;
    for (const std::size_t option : whole_set(problem, musts, solved))
        trees.push_back(problem.options[option].tree);
    return trees;
}

Choice choose(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
              const ChoiceSettings& settings) {
    std::vector<Contender> contenders;
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        const Candidate& candidate = candidates[i];
        const bool joins =
            candidate.rank && candidate.enough_evidence && may_join(candidate, inventory.rows[i], settings);
        if (joins || candidate.wish == Wish::must) contenders.push_back(contender_of(candidates, i));
    }
    std::ranges::sort(contenders, better);
    const ChoiceProblem problem = problem_of(contenders, inventory, settings);
    const std::vector<std::size_t> musts = musts_among(contenders);
    const Solved solved = solve(beside(problem, musts));
    std::int64_t of_musts = 0;
    for (const std::size_t must : musts)
        of_musts += problem.options[must].score;

    const std::vector<std::size_t> set = whole_set(problem, musts, solved);
    for (std::size_t k = 0; k < set.size(); ++k)
        candidates[problem.options[set[k]].tree].site = k + 1;
    Choice choice;
    choice.total_score = static_cast<double>(of_musts + solved.score) / millionths;
    choice.bound = static_cast<double>(of_musts + solved.bound) / millionths;
    choice.proven = solved.proven();
    choice.unique = solved.unique;
    choice.considered = musts.size() + solved.considered;
    choice.nodes = solved.nodes;
    choice.by_cbc = solved.by_cbc;
    tell_what_stops(choice, problem, set, inventory, settings);
    return choice;
}

}  // namespace roostward::siting
