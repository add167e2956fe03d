#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "choice_problem.hpp"

namespace roostward::siting {

/// A set of options, what it is worth, and what no set exceeds.
struct Picked {
    std::vector<std::size_t> options;  ///< ascending
    std::int64_t worth = 0;
    std::int64_t bound = 0;
    bool proven = false;    ///< no other set is better, by score or by place
    std::size_t nodes = 0;  ///< of the search tree
};

/// Options of which at most one can be chosen, because all of them are too close to each other, and which
/// share their group of the first limit. Every option is in one cell.
struct Cells {
    std::vector<std::uint32_t> of;  ///< one an option
    std::size_t count = 0;
    Cells() = default;
    Cells(const ChoiceProblem& problem, const Conflicts& conflicts);
};

/// What is left of each option's worth after it paid for the rules that a bound by cells does not know, and
/// what those rules take in at most. Any prices that are not negative give a valid bound; none are all right.
struct Priced {
    std::vector<std::int64_t> left;  ///< one an option
    std::int64_t taken_in = 0;
};
[[nodiscard]] Priced unpriced(const Worth& worth);

/// The options as they come, each that fits.
[[nodiscard]] std::vector<std::size_t> greedy(const ChoiceProblem& problem);

/// What a search goes by.
struct Guide {
    const ChoiceProblem& problem;
    const Conflicts& conflicts;
    const Worth& worth;
    const Cells& cells;
    const Priced& priced;
};

/// The options that may be in a set of at least this worth, as far as the bound by cells tells.
[[nodiscard]] std::vector<std::size_t> not_hopeless(const Guide& guide, std::int64_t worth);

/// Depth-first branch and bound. The bound of a node: of each cell the best option that is left, within the
/// room of each group of the first limit and the sites left. Starts from a set that keeps the rules and looks
/// at options up to `most_looks` times, so that it takes as long on every machine's every run.
[[nodiscard]] Picked search(const Guide& guide, std::vector<std::size_t> start, std::size_t most_looks);

}  // namespace roostward::siting
