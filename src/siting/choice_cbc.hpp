#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "choice_rows.hpp"

namespace roostward::siting {

/// COIN-OR's solvers, one solve at a time. They work in floating point: what they say is checked by whoever
/// asks them.
/// Prices of the rows at the best mixture of sets, in millionths; empty where the solver gives up. `less` is
/// taken off every worth first, which is exact where all sites are filled.
[[nodiscard]] std::vector<double> prices_by_clp(const Worth& worth, std::span<const Row> rows,
                                                std::int64_t less);

struct ByCbc {
    std::vector<std::size_t> options;  ///< ascending; empty where it found nothing
    std::optional<double> bound;       ///< millionths; empty where it vouches for none
    std::size_t nodes = 0;
};
/// Up to `most_nodes` nodes: never by the clock, so that every run gives the same. It gets no set to start
/// from: CBC 2.10 fails on one after its own reductions.
[[nodiscard]] ByCbc set_by_cbc(const Worth& worth, std::span<const Row> rows, std::size_t most_nodes);

}  // namespace roostward::siting
