#include "values.hpp"

#include <algorithm>
#include <limits>

#include "roostward/evenings/worth.hpp"

namespace roostward::evenings {

namespace {

/// 0.3 h where 0.25 h count as watched.
constexpr double enough_of_least = 1.2;
constexpr core::Hours looked_ahead{0.5};
/// Of the most that a spot is worth: a belief may be wrong.
constexpr double worth_all_the_same = 0.2;

double mean_of(const TreeKnown& tree) {
    return tree.passes ? tree.passes->mean() : 0.0;
}

/// The means that decide who is chosen, passes an hour.
struct Rivals {
    double last_chosen = 0.0;  ///< 0 where fewer are chosen than are wanted
    double best_other = 0.0;   ///< watched, and no site is too near
};

Rivals rivals_of(const KnownTrees& known, const Asked& asked) {
    Rivals rivals;
    std::vector<core::PlanePoint> sites;
    double last = std::numeric_limits<double>::infinity();
    for (const TreeKnown& tree : known.trees) {
        if (!tree.chosen) continue;
        sites.push_back(tree.stem);
        last = std::min(last, mean_of(tree));
    }
    if (sites.size() >= asked.sites) rivals.last_chosen = last;
    for (const TreeKnown& tree : known.trees) {
        if (tree.chosen || tree.watched < asked.min_watch) continue;
        const bool apart = std::ranges::all_of(
            sites, [&](core::PlanePoint site) { return core::distance(site, tree.stem) >= asked.spacing; });
        if (apart) rivals.best_other = std::max(rivals.best_other, mean_of(tree));
    }
    return rivals;
}

double worth_of(const TreeKnown& tree, const Rivals& rivals) {
    if (!tree.passes) return 0.0;
    return worth_of_watching(*tree.passes, looked_ahead,
                             tree.chosen ? rivals.best_other : rivals.last_chosen);
}

}  // namespace

Values values_of(std::span<const Spot> spots, const KnownTrees& known, const Asked& asked) {
    Values values{std::vector<double>(spots.size(), 1.0), std::vector<double>(spots.size(), 0.0),
                  asked.min_watch * enough_of_least};
    if (std::ranges::none_of(known.trees, [](const TreeKnown& tree) { return tree.passes.has_value(); }))
        return values;
    const Rivals rivals = rivals_of(known, asked);
    double most = 0.0;
    for (std::size_t s = 0; s < spots.size(); ++s) {
        values.weight[s] = 0.0;
        for (const std::size_t i : spots[s].trees)
            values.weight[s] = std::max(values.weight[s], worth_of(known.trees[i], rivals));
        most = std::max(most, values.weight[s]);
        // What a belief rests on is in its width already; too little to count is to be made up.
        if (spots[s].watched >= asked.min_watch.value()) values.known_after[s] = spots[s].watched;
    }
    for (double& weight : values.weight)
        weight = worth_all_the_same + (most > 0.0 ? weight / most : 0.0);
    return values;
}

}  // namespace roostward::evenings
