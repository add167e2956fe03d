#include "choice_rows.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

namespace roostward::siting {

namespace {

void append_cells(std::vector<Row>& rows, const Cells& cells) {
    std::vector<Row> all(cells.count);
    for (std::size_t i = 0; i < cells.of.size(); ++i)
        all[cells.of[i]].options.push_back(static_cast<std::uint32_t>(i));
    for (Row& cell : all) {
        cell.in_cells = true;
        if (cell.options.size() > 1) rows.push_back(std::move(cell));
    }
}

/// Groups of options, all too close to each other, until every pair stands in one.
class Cover {
 public:
    Cover(const ChoiceProblem& problem, const Conflicts& conflicts, const Cells& cells)
        : conflicts_(conflicts), cells_(cells), covered_(problem.options.size()) {
        for (std::size_t i = 0; i < covered_.size(); ++i)
            covered_[i].assign(conflicts.of(i).size(), false);
    }

    void append_to(std::vector<Row>& rows) {
        for (std::uint32_t i = 0; i < covered_.size(); ++i) {
            const auto near = conflicts_.of(i);
            for (std::size_t k = 0; k < near.size(); ++k)
                if (near[k] > i && !covered_[i][k] && cells_.of[i] != cells_.of[near[k]])
                    rows.push_back(grown_from(i, near[k]));
        }
    }

 private:
    Row grown_from(std::uint32_t one, std::uint32_t other) {
        Row row{{one, other}, {}, 1, false};
        std::vector<std::uint32_t> near_all = common(conflicts_.of(one), conflicts_.of(other));
        while (!near_all.empty()) {
            row.options.push_back(near_all.front());
            near_all = common(near_all, conflicts_.of(near_all.front()));
        }
        std::sort(row.options.begin(), row.options.end());
        for (const std::uint32_t member : row.options)
            cover(member, row.options);
        return row;
    }
    static std::vector<std::uint32_t> common(std::span<const std::uint32_t> some,
                                             std::span<const std::uint32_t> others) {
        std::vector<std::uint32_t> both;
        std::set_intersection(some.begin(), some.end(), others.begin(), others.end(),
                              std::back_inserter(both));
        return both;
    }
    /// The pairs of one option with others; both lists are sorted.
    void cover(std::uint32_t one, std::span<const std::uint32_t> others) {
        const auto near = conflicts_.of(one);
        std::size_t k = 0;
        for (const std::uint32_t other : others) {
            while (k < near.size() && near[k] < other)
                ++k;
            if (k < near.size() && near[k] == other) covered_[one][k] = true;
        }
    }

    const Conflicts& conflicts_;
    const Cells& cells_;
    std::vector<std::vector<bool>> covered_;  ///< as the lists of conflicts
};

void append_limits(std::vector<Row>& rows, const ChoiceProblem& problem) {
    for (std::size_t l = 0; l < problem.limits.size(); ++l) {
        const GroupLimit& limit = problem.limits[l];
        std::vector<Row> groups(limit.room.size());
        for (std::size_t i = 0; i < limit.group.size(); ++i)
            groups[limit.group[i]].options.push_back(static_cast<std::uint32_t>(i));
        for (std::size_t g = 0; g < groups.size(); ++g) {
            if (groups[g].options.size() <= limit.room[g]) continue;
            groups[g].at_most = static_cast<std::int64_t>(limit.room[g]);
            groups[g].in_cells = l == 0;
            rows.push_back(std::move(groups[g]));
        }
    }
}

void append_totals(std::vector<Row>& rows, const ChoiceProblem& problem) {
    Row sites{{}, {}, static_cast<std::int64_t>(problem.sites), true};
    for (std::uint32_t i = 0; i < problem.options.size(); ++i)
        sites.options.push_back(i);
    if (problem.budget) {
        Row money{sites.options, {}, *problem.budget, false};
        for (const Option& option : problem.options)
            money.costs.push_back(option.cost);
        rows.push_back(std::move(money));
    }
    rows.push_back(std::move(sites));
}

}  // namespace

std::vector<Row> rows_of(const ChoiceProblem& problem, const Conflicts& conflicts, const Cells& cells) {
    std::vector<Row> rows;
    append_cells(rows, cells);
    Cover(problem, conflicts, cells).append_to(rows);
    append_limits(rows, problem);
    append_totals(rows, problem);
    return rows;
}

Priced priced(const Worth& worth, std::span<const Row> rows, std::span<const double> prices) {
    Priced result = unpriced(worth);
    for (std::size_t r = 0; r < rows.size(); ++r) {
        const Row& row = rows[r];
        const double wanted = prices[r] * static_cast<double>(worth.per_millionth);
        constexpr double most = 1e18;  // what all together must not exceed, in 64 bits
        if (row.in_cells || !(wanted >= 1.0) || wanted * static_cast<double>(row.at_most) > most) continue;
        const auto price = static_cast<std::int64_t>(std::llround(wanted));
        result.taken_in += price * row.at_most;
        for (std::size_t k = 0; k < row.options.size(); ++k)
            result.left[row.options[k]] -= price * (row.costs.empty() ? 1 : row.costs[k]);
    }
    return result;
}

}  // namespace roostward::siting
