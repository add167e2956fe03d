#include "siting/choice_instances.hpp"

#include <algorithm>
#include <array>
#include <functional>

namespace roostward::siting::instances {

namespace {

struct Row {
    Option option;
    std::array<std::uint32_t, 2> groups{};  ///< owner, zone
    bool must = false;
};

}  // namespace

Instance instance(std::uint64_t number, std::int64_t most_trees) {
    Numbers draw(number);
    const std::int64_t trees = std::min(most_trees, 5 + draw.upto(number % 2 == 1 ? 195 : 45));
    Instance made;
    ChoiceProblem& problem = made.problem;
    problem.sites = static_cast<std::size_t>(1 + draw.upto(14));
    problem.spacing = core::Metres(static_cast<double>(10 + draw.upto(50)));
    const std::int64_t side = 60 + draw.upto(540), kind = draw.upto(2);
    const std::array<std::int64_t, 2> groups{1 + draw.upto(6), 1 + draw.upto(3)};
    const std::array<std::int64_t, 2> room{1 + draw.upto(2), 2 + draw.upto(4)};
    const std::int64_t quotas = draw.upto(2);
    const bool with_budget = draw.upto(2) == 0;
    const std::int64_t musts = draw.upto(3) == 0 ? draw.upto(2) : 0;

    std::vector<Row> rows;
    for (std::int64_t i = 0; i < trees; ++i) {
        const std::int64_t x = draw.upto(side), y = draw.upto(side), any = draw.upto(1'000'000);
        const std::array<std::int64_t, 3> score{any, any / 100'000 * 100'000, 900'000 * x / side + any / 10};
        const auto owner = static_cast<std::uint32_t>(draw.upto(groups[0] - 1));
        const auto zone = static_cast<std::uint32_t>(draw.upto(groups[1] - 1));
        Option option;
        option.tree = static_cast<std::size_t>(i);
        option.score = score.at(static_cast<std::size_t>(kind));
        option.stem = {static_cast<double>(x), static_cast<double>(y)};
        option.cost = 50 + draw.upto(200);
        rows.push_back({option, {owner, zone}, i < musts});
    }
    const std::int64_t budget = static_cast<std::int64_t>(problem.sites) * (60 + draw.upto(80));
    if (with_budget) problem.budget = budget;

    std::ranges::stable_sort(rows, std::ranges::greater{}, [](const Row& row) { return row.option.score; });
    problem.contenders = rows.size();
    for (std::size_t q = 0; q < static_cast<std::size_t>(quotas); ++q)
        problem.limits.push_back(
            {{}, std::vector(static_cast<std::size_t>(groups.at(q)), static_cast<std::size_t>(room.at(q)))});
    for (std::size_t i = 0; i < rows.size(); ++i) {
        rows[i].option.place = i;
        problem.options.push_back(rows[i].option);
        for (std::size_t q = 0; q < problem.limits.size(); ++q)
            problem.limits[q].group.push_back(rows[i].groups.at(q));
        if (rows[i].must) made.musts.push_back(i);
    }
    return made;
}

}  // namespace roostward::siting::instances
