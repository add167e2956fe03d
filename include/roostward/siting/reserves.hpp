#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "roostward/siting/candidates.hpp"
#include "roostward/siting/settings.hpp"

namespace roostward::siting {

/// Where a reserve was looked for, in this order.
enum class Nearness { near_by, same_flight_line, anywhere };

/// A reserve near by stands this far from its site at most (inclusive): boxes within 50 m of each other are
/// used as a group (Brisbane chapter 2011), and a climber carries the box over.
inline constexpr core::Metres near_by_within{50.0};

/// The tree to take if a chosen one turns out to be unsafe.
struct Reserve {
    std::size_t tree = 0;
    Nearness nearness = Nearness::near_by;
    core::Metres away;  ///< from the chosen tree
};

/// A tree that is not chosen, and the sites that it could take the place of, one at a time.
struct StandIn {
    std::size_t tree = 0;
    std::vector<std::size_t> sites;  ///< numbers, ascending; never empty
};

struct Reserves {
    std::vector<std::optional<Reserve>> of_sites;  ///< one a site, site 1 first; empty where no tree can
    std::vector<StandIn> in_order;                 ///< best first, at most twice as many as there are sites
};

/// For each chosen tree the best one that can take its place while the others stay and every rule of the
/// choice is kept: near by; if there is none beside the same flight line; if there is none anywhere. The same
/// tree may be the reserve of several sites, and then serves one.
[[nodiscard]] Reserves reserves_of(std::span<const Candidate> candidates, const trees::Inventory& inventory,
                                   const ChoiceSettings& settings);

}  // namespace roostward::siting
