#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "choice_search.hpp"

namespace roostward::siting {

/// At most so many of some options, or at most so much for them.
struct Row {
    std::vector<std::uint32_t> options;
    std::vector<std::int64_t> costs;  ///< one an option; empty: each counts one
    std::int64_t at_most = 1;
    bool in_cells = false;  ///< the bound by cells knows it
};

/// The problem as a linear one: with 0 or 1 for every option, these rows say what its rules say. Options too
/// close to each other stand together in as large groups as are found: the cells, and whatever else covers
/// the pairs that no cell holds.
[[nodiscard]] std::vector<Row> rows_of(const ChoiceProblem& problem, const Conflicts& conflicts,
                                       const Cells& cells);

/// Pays the rows that the cells do not know at these prices, in millionths a unit; negative ones count as 0.
[[nodiscard]] Priced priced(const Worth& worth, std::span<const Row> rows, std::span<const double> prices);

}  // namespace roostward::siting
