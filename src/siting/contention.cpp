#include "contention.hpp"

namespace roostward::siting {

std::vector<std::size_t> in_contention(std::span<const Candidate> candidates) {
    const double least = 0.5 * enough_flight(reference_density(candidates));
    std::vector<std::size_t> trees;
    for (const std::size_t tree : in_order_of_rank(candidates)) {
        const Candidate& candidate = candidates[tree];
        const bool near_enough =
            trees.size() < most_taking_part && candidate.activity.flight_density >= least;
        if (near_enough || candidate.wish == Wish::must) trees.push_back(tree);
    }
    for (std::size_t i = 0; i < candidates.size(); ++i)
        if (candidates[i].wish == Wish::must && !candidates[i].rank) trees.push_back(i);
    return trees;
}

}  // namespace roostward::siting
