#pragma once

#include <span>

#include "roostward/activity/piece_buckets.hpp"
#include "roostward/core/units.hpp"

namespace roostward::activity {

/// Kernels of spots (flights without a direction) at many places, in one of two ways. Where places are few,
/// each sums its spots. Where they lie close together, they share the work: a Gaussian of s metres is one of
/// √(s² − b²) after one of b, so the spots of an evening are laid on nodes once, and each place takes what it
/// feels from 16 × 16 nodes about it. The sum over nodes is a trapezoidal one of a Gaussian, which errs by
/// 2e^(−2π²σ²/a²), with nodes a apart and 1/σ² = 1/(s² − b²) + 1/b² (Poisson's summation formula): a is such
/// that this is 9e-11. Either way within 1e-9 of the largest value.
class SpotSums {
 public:
    SpotSums(std::span<const Piece* const> spots, std::size_t evenings);

    /// Places that lie in one square of this side, counted from 0, are best asked for together.
    [[nodiscard]] core::Metres square_side() const;

    /// Adds to flown[member · evenings + evening], in 1/m², for places that lie in one such square.
    void add_at(std::span<const core::PlanePoint> places, std::span<const std::size_t> members,
                double* flown) const;
    /// Counts in used[evening] the spots within `close` (inclusive).
    void count_at(core::PlanePoint p, double close, std::uint32_t* used) const {
        spots_.count_at(p, close, used);
    }

 private:
    [[nodiscard]] bool nodes_pay(std::size_t places, std::size_t near) const;
    void add_by_nodes(core::PlanePoint corner, std::span<const std::uint32_t> near,
                      std::span<const core::PlanePoint> places, std::span<const std::size_t> members,
                      double* flown) const;

    std::size_t evenings_;
    PieceBuckets spots_;
    double second_step_ = 1.0;  ///< b, m
    double apart_ = 1.0;        ///< a, m
};

}  // namespace roostward::activity
