#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "choice_problem.hpp"

namespace roostward::siting {

struct Solved {
    std::vector<std::size_t> trees;  ///< best placed first
    std::int64_t score = 0;          ///< millionths
    std::int64_t bound = 0;          ///< no set has more
    bool unique = false;             ///< proven that no set is as good, by score and by place
    std::size_t considered = 0;      ///< options that the set could hold
    std::size_t nodes = 0;           ///< of search trees
    bool by_cbc = false;             ///< the search did not get to its end alone
    [[nodiscard]] bool proven() const { return bound == score; }
};

/// The best set, by every means: search, the prices of a linear program, COIN-OR CBC.
[[nodiscard]] Solved solve(const ChoiceProblem& problem);

/// The best set as far as a short search finds it, for the many choices of re-drawn evenings. Where it proves
/// its answer, that is the answer of `solve`.
[[nodiscard]] Solved solve_quickly(const ChoiceProblem& problem);

/// By COIN-OR CBC, whatever the search could do.
[[nodiscard]] Solved solve_by_cbc(const ChoiceProblem& problem);

}  // namespace roostward::siting
