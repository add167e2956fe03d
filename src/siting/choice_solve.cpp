#include "choice_solve.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "choice_cbc.hpp"
#include "choice_search.hpp"

namespace roostward::siting {

namespace {

constexpr std::size_t short_search = 500'000;    // looks at options
constexpr std::size_t long_search = 50'000'000;  // the same
constexpr std::size_t many_pairs = 1'000'000;    // more make the linear program too large to be of use
// Of CBC. What a node costs goes by the entries of the rows, and the first one costs most.
constexpr std::size_t most_entries = 300'000, most_nodes = 2'000, entries_of_all_nodes = 100'000'000;

std::vector<std::int64_t> picked_from(const std::vector<std::int64_t>& values,
                                      const std::vector<std::size_t>& which) {
    std::vector<std::int64_t> picked;
    picked.reserve(which.size());
    for (const std::size_t i : which)
        picked.push_back(values[i]);
    return picked;
}

/// All that is known of a problem on the way to its answer.
class Work {
 public:
    Work(const ChoiceProblem& problem, std::size_t most_pairs)
        : most_pairs_(most_pairs),
          problem_(reduced(problem, most_pairs)),
          considered_(problem_.options.size()),
          worth_(problem_),
          bound_(bound_by_squares(problem_, worth_)),
          conflicts_(problem_, most_pairs) {
        best_.options = greedy(problem_);
        best_.worth = worth_.sum(best_.options);
        while (!conflicts_.complete())
            halve();
        cells_ = Cells(problem_, conflicts_);
        priced_ = unpriced(worth_);
    }
    [[nodiscard]] bool proven() const { return best_.proven; }

    void search_for(std::size_t looks) {
        const std::size_t nodes = best_.nodes;
        best_ = search(guide(), std::move(best_.options), looks);
        best_.nodes += nodes;
        if (!halved_) bound_ = std::min(bound_, best_.bound);
    }

    /// Prices, and then only the options that they leave hope for.
    void put_prices() {
        const bool full = best_.options.size() == problem_.sites;
        const std::int64_t least = full ? *std::ranges::min_element(worth_.of) : 0;
        rows_ = rows_of(problem_, conflicts_, cells_);
        const std::vector<double> prices = prices_by_clp(worth_, rows_, least);
        if (prices.empty()) return;
        priced_ = priced(worth_, rows_, prices);
        keep(not_hopeless(guide(), best_.worth));
    }

    /// Whether it was asked: what is too large for it is left alone.
    bool ask_cbc() {
        rows_ = rows_of(problem_, conflicts_, cells_);
        std::size_t entries = 0;
        for (const Row& row : rows_)
            entries += row.options.size();
        if (entries == 0 || entries > most_entries) return false;
        by_cbc_ = true;
        const ByCbc found = set_by_cbc(worth_, rows_, std::min(most_nodes, entries_of_all_nodes / entries));
        best_.nodes += found.nodes;
        if (keeps_the_rules(problem_, found.options) && worth_.sum(found.options) > best_.worth) {
            best_.options = found.options;
            best_.worth = worth_.sum(found.options);
        }
        if (!found.bound || halved_) return true;
        // Its arithmetic is good to about nine digits; scores are whole, and places count less than an
        // eighth.
        const double safe = *found.bound * (1.0 + 1e-9) + 0.2;
        const auto whole = static_cast<std::int64_t>(std::floor(safe)) + 1;
        bound_ = std::min(bound_, std::max(best_.worth, whole * worth_.per_millionth - 1));
        return true;
    }

    [[nodiscard]] Solved solved() const {
        Solved answer;
        for (const std::size_t option : best_.options) {
            answer.trees.push_back(problem_.options[option].tree);
            answer.score += problem_.options[option].score;
        }
        answer.bound = std::max(answer.score, bound_ / worth_.per_millionth);
        answer.unique = best_.proven && !halved_;
        answer.considered = considered_;
        answer.nodes = best_.nodes;
        answer.by_cbc = by_cbc_;
        return answer;
    }

 private:
    [[nodiscard]] Guide guide() const { return {problem_, conflicts_, worth_, cells_, priced_}; }

    /// The set that there is, and the better placed half of the others.
    void halve() {
        halved_ = true;
        std::size_t others = (problem_.options.size() - best_.options.size()) / 2;
        std::vector<std::size_t> kept;
        for (std::size_t i = 0; i < problem_.options.size(); ++i) {
            const bool in_set = std::ranges::binary_search(best_.options, i);
            if (in_set || others > 0) kept.push_back(i);
            if (!in_set && others > 0) --others;
        }
        keep(kept);
    }

    /// Goes on with some of the options, among them the set that there is.
    void keep(const std::vector<std::size_t>& options) {
        std::vector<std::size_t> set;
        for (std::size_t k = 0; k < options.size(); ++k)
            if (std::ranges::binary_search(best_.options, options[k])) set.push_back(k);
        problem_ = among(problem_, options);
        worth_.of = picked_from(worth_.of, options);
        if (!priced_.left.empty()) priced_.left = picked_from(priced_.left, options);
        conflicts_ = Conflicts(problem_, most_pairs_);
        if (conflicts_.complete()) cells_ = Cells(problem_, conflicts_);
        best_.options = std::move(set);
    }

    std::size_t most_pairs_;
    ChoiceProblem problem_;
    std::size_t considered_;
    Worth worth_;
    std::int64_t bound_;  ///< of all options that the set could hold
    Conflicts conflicts_;
    Cells cells_;
    Priced priced_;
    std::vector<Row> rows_;
    Picked best_;
    bool by_cbc_ = false;
    bool halved_ =
        false;  ///< there were too many pairs: some options were left out that the best set may hold
};

}  // namespace

Solved solve_quickly(const ChoiceProblem& problem) {
    constexpr std::size_t few_pairs = 50'000;
    Work work(problem, few_pairs);
    work.search_for(short_search);
    return work.solved();
}

Solved solve_by_cbc(const ChoiceProblem& problem) {
    Work work(problem, many_pairs);
    work.ask_cbc();
    return work.solved();
}

Solved solve(const ChoiceProblem& problem) {
    Work work(problem, many_pairs);
    work.search_for(short_search);
    if (!work.proven()) {
        work.put_prices();
        work.search_for(long_search);
    }
    if (!work.proven() && work.ask_cbc()) {
        work.put_prices();
        work.search_for(long_search);
    }
    return work.solved();
}

}  // namespace roostward::siting
