#include "best_of_draws.hpp"

#include <algorithm>

namespace roostward::siting {

BestOfDraws::BestOfDraws(std::size_t draws, std::size_t most)
    : most_(most), best_(draws), is_cut_(draws, false), least_(draws) {}

void BestOfDraws::take(const std::vector<Offer>& offers) {
    const std::scoped_lock lock(mutex_);
    for (const auto& [draw, contender] : offers) {
        std::vector<Contender>& best = best_[draw];
        best.push_back(contender);
        std::ranges::push_heap(best, better);
        if (best.size() <= most_) continue;
        std::ranges::pop_heap(best, better);
        best.pop_back();
        is_cut_[draw] = true;
        least_[draw].store(best.front().score, std::memory_order_relaxed);
    }
}

}  // namespace roostward::siting
