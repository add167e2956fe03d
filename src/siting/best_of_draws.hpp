#pragma once

#include <atomic>
#include <cstddef>
#include <mutex>
#include <vector>

#include "evidence.hpp"

namespace roostward::siting {

/// The best contenders of every re-draw, gathered by several threads. Which ones stay depends on nothing but
/// all that were offered.
class BestOfDraws {
 public:
    /// Up to `most` contenders a draw stay.
    BestOfDraws(std::size_t draws, std::size_t most);

    struct Offer {
        std::size_t draw = 0;
        Contender contender;
    };
    /// Whether a score may be good enough; most are not.
    [[nodiscard]] bool may_stay(std::size_t draw, double score) const {
        return score >= least_[draw].load(std::memory_order_relaxed);
    }
    void take(const std::vector<Offer>& offers);

    /// Of one draw, in no order.
    [[nodiscard]] const std::vector<Contender>& of(std::size_t draw) const { return best_[draw]; }
    /// Whether all that were offered to a draw stayed.
    [[nodiscard]] bool has_all(std::size_t draw) const { return !is_cut_[draw]; }

 private:
    std::mutex mutex_;
    std::size_t most_;
    std::vector<std::vector<Contender>> best_;  ///< heaps with the worst on top
    std::vector<bool> is_cut_;
    std::vector<std::atomic<double>> least_;  ///< score of the worst that stays, once there are `most`
};

}  // namespace roostward::siting
