#include "in_turn.hpp"

#include <algorithm>
#include <limits>
#include <numeric>
#include <utility>

namespace roostward::evenings {

namespace {

constexpr double longer = 1.25;
constexpr core::Metres and_longer{40.0};

double due_met(std::span<const double> due_late, std::span<const std::size_t> order) {
    double sum = 0.0;
    for (std::size_t i = 0; i < order.size(); ++i)
        sum += due_late[order[i]] * static_cast<double>(i);
    return sum;
}

template <class Do>
void for_each_order(std::size_t stops, const Do& act) {
    std::vector<std::size_t> order(stops);
    std::iota(order.begin(), order.end(), std::size_t{0});
    do
        act(order);
    while (std::ranges::next_permutation(order).found);
}

}  // namespace

core::Metres way_past(const Ways& ways, std::span<const std::size_t> order) {
    core::Metres way;
    for (std::size_t i = 1; i < order.size(); ++i)
        way = way + ways[order[i - 1]][order[i]];
    return way;
}

std::vector<std::size_t> in_turn(const Ways& ways, std::span<const double> due_late) {
    core::Metres shortest(std::numeric_limits<double>::infinity());
    for_each_order(ways.size(),
                   [&](const auto& order) { shortest = std::min(shortest, way_past(ways, order)); });
    std::vector<std::size_t> best;
    std::pair<double, core::Metres> most{-std::numeric_limits<double>::infinity(), core::Metres()};
    for_each_order(ways.size(), [&](const auto& order) {
        const core::Metres way = way_past(ways, order);
        if (way > shortest * longer + and_longer) return;
        const std::pair worth{due_met(due_late, order), way * -1.0};
        if (!best.empty() && worth <= most) return;
        most = worth;
        best = order;
    });
    return best;
}

}  // namespace roostward::evenings
