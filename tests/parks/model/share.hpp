#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "parks/model/choice.hpp"
#include "parks/model/park.hpp"

namespace roostward::parks {

inline constexpr std::size_t sites = 5;
inline constexpr double site_spacing = 25.0;  // metres

/// Hours of effective watching at a place: the half-normals of all watches.
[[nodiscard]] double effective_hours(const Park& park, core::PlanePoint place);

/// Up to five of the candidates (indices of trees) with the largest values, largest first and then the lower
/// index, no two closer than 25 m. `value` holds one a tree.
[[nodiscard]] std::vector<std::size_t> greedy_sites(const Park& park, std::span<const std::size_t> candidates,
                                                    std::span<const double> value);

[[nodiscard]] std::vector<std::size_t> suitable_trees(const Park& park);

/// Greedy on the truth among suitable trees with at least 0.25 effective hours.
[[nodiscard]] std::vector<std::size_t> best_choice(const Park& park);

/// Greedy on a 15 m kernel over the recorded points, whatever the effort.
[[nodiscard]] std::vector<std::size_t> raw_count_choice(const Park& park);

[[nodiscard]] double true_use(const Park& park, std::span<const std::size_t> trees);

/// One park: each choice's true use as a share of the best choice's.
struct Shares {
    double roostward = 0.0;
    double raw_counts = 0.0;
    double random_tree = 0.0;  ///< expectation for five suitable trees drawn at random
};
[[nodiscard]] Shares shares_of(const Park& park, activity::Bandwidth bandwidth);

struct Estimate {
    double mean = 0.0;
    double half_width = 0.0;  ///< of the 95 % interval by Student's t
};
/// At least two values.
[[nodiscard]] Estimate estimate_of(std::span<const double> values);

}  // namespace roostward::parks
