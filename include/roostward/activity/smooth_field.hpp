#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "roostward/core/grid.hpp"
#include "roostward/core/parallel.hpp"

namespace roostward::activity {

/// One sample of flight: metres flown at a place.
struct Sample {
    core::PlanePoint place;
    double metres = 0.0;
};

/// Samples smoothed by one Gaussian, for a grid whose cells may be much finer than the Gaussian. They are
/// spread by quintic B-splines over a field of coarse cells, filtered there, and read out by the same
/// splines. The filter is the Gaussian with both splines taken out again (their even cumulants to the sixth
/// order), so that what remains is aliasing and truncation: under 1e-5 of one sample's peak from two coarse
/// cells a width.
class SmoothField {
 public:
    /// Narrower kernels need the exact sum.
    static constexpr double least_cells = 2.0;

    /// `width` in metres, at least `least_cells` cells of the grid.
    SmoothField(const core::Grid& grid, double width);

    /// Adds samples in their order: the same bits for any number of threads.
    void add(std::span<const Sample> samples, core::Threads threads);
    /// Smooths and adds to one value a cell of the grid. Uses the field up.
    void add_to(std::vector<float>& out, core::Threads threads);

 private:
    [[nodiscard]] double column_of(double easting) const;
    [[nodiscard]] double row_of(double northing) const;
    void add_stripe(std::span<const Sample> samples, std::span<const std::uint32_t> own, std::size_t begin,
                    std::size_t end);
    void filter(core::Threads threads);

    core::Grid grid_;
    std::size_t factor_ = 1;  ///< fine cells a side of a coarse one
    double coarse_ = 1.0;     ///< side of a coarse cell, m
    std::size_t pad_ = 0, rows_ = 0, columns_ = 0;
    std::vector<float> taps_;  ///< one side of the filter, the middle first
    std::vector<float> cells_;
};

}  // namespace roostward::activity
