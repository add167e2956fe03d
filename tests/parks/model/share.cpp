#include "parks/model/share.hpp"

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <numeric>

namespace roostward::parks {

double effective_hours(const Park& park, core::PlanePoint place) {
    double hours = 0.0;
    for (const survey::Watch& watch : park.watches.rows) {
        const double range = watch.range.value();
        hours += watch.hours().value() *
                 std::exp(-core::squared_distance(place, watch.path.front()) / (2.0 * range * range));
    }
    return hours;
}

std::vector<std::size_t> greedy_sites(const Park& park, std::span<const std::size_t> candidates,
                                      std::span<const double> value) {
    std::vector<std::size_t> order(candidates.begin(), candidates.end());
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return value[a] != value[b] ? value[a] > value[b] : a < b;
    });
    std::vector<std::size_t> chosen;
    for (const std::size_t tree : order) {
        if (chosen.size() == sites) break;
        const bool apart = std::all_of(chosen.begin(), chosen.end(), [&](std::size_t other) {
            return core::distance(park.trees[tree].stem, park.trees[other].stem).value() >= site_spacing;
        });
        if (apart) chosen.push_back(tree);
    }
    return chosen;
}

std::vector<std::size_t> suitable_trees(const Park& park) {
    std::vector<std::size_t> suitable;
    for (std::size_t i = 0; i < park.trees.size(); ++i)
        if (park.trees[i].suitable) suitable.push_back(i);
    return suitable;
}

std::vector<std::size_t> best_choice(const Park& park) {
    std::vector<std::size_t> watched;
    for (const std::size_t tree : suitable_trees(park))
        if (effective_hours(park, park.trees[tree].stem) >= 0.25) watched.push_back(tree);
    return greedy_sites(park, watched, park.truth);
}

std::vector<std::size_t> raw_count_choice(const Park& park) {
    constexpr double h = 15.0;
    std::vector<double> density(park.trees.size(), 0.0);
    for (std::size_t i = 0; i < park.trees.size(); ++i)
        for (const survey::Pass& pass : park.passes.rows)
            density[i] +=
                std::exp(-core::squared_distance(park.trees[i].stem, pass.position) / (2.0 * h * h));
    return greedy_sites(park, suitable_trees(park), density);
}

double true_use(const Park& park, std::span<const std::size_t> trees) {
    return std::accumulate(trees.begin(), trees.end(), 0.0,
                           [&](double sum, std::size_t tree) { return sum + park.truth[tree]; });
}

Shares shares_of(const Park& park, activity::Bandwidth bandwidth) {
    const double best = true_use(park, best_choice(park));
    const std::vector<std::size_t> suitable = suitable_trees(park);
    const double any = true_use(park, suitable) / static_cast<double>(suitable.size());
    const auto chosen = siting::in_order_of_site(assess(park, bandwidth, park_choice()));
    return {true_use(park, chosen) / best, true_use(park, raw_count_choice(park)) / best,
            static_cast<double>(sites) * any / best};
}

Estimate estimate_of(std::span<const double> values) {
    const double n = static_cast<double>(values.size());
    const double mean = std::accumulate(values.begin(), values.end(), 0.0) / n;
    double squares = 0.0;
    for (const double value : values)
        squares += (value - mean) * (value - mean);
    const double t = boost::math::quantile(boost::math::students_t(n - 1.0), 0.975);
    return {mean, t * std::sqrt(squares / (n - 1.0) / n)};
}

}  // namespace roostward::parks
