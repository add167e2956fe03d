#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "roostward/activity/pieces.hpp"
#include "roostward/core/grid.hpp"

namespace roostward::activity {

/// Pieces in square buckets, one array a member, so that the sums over them become vector instructions.
/// Within a bucket they keep their order, and sums run in an order that depends on nothing but the pieces.
class PieceBuckets {
 public:
    struct Columns {
        std::vector<double> x, y, east, north, half_length, weight, width, precision;
        std::vector<std::uint32_t> evening;
    };

    /// Kernels are felt within `kernel_reach` widths of the widest piece.
    explicit PieceBuckets(std::span<const Piece* const> pieces);
    explicit PieceBuckets(const std::vector<Piece>& pieces);

    /// Adds each piece's kernel at `p` to flown[evening].
    void add_at(core::PlanePoint p, double* flown) const;
    /// Counts in used[evening] the pieces that pass within `close` (inclusive).
    void count_at(core::PlanePoint p, double close, std::uint32_t* used) const;

    /// Columns of pieces whose middle may lie in the box, and of all that do.
    [[nodiscard]] std::vector<std::uint32_t> in(const core::Box& box) const;
    [[nodiscard]] const Columns& columns() const { return columns_; }
    [[nodiscard]] core::Metres reach() const { return core::Metres(reach_); }

 private:
    [[nodiscard]] std::size_t bucket_column(double easting) const;
    [[nodiscard]] std::size_t bucket_row(double northing) const;
    [[nodiscard]] bool meets(const core::Box& box) const;
    template <class Do>
    void for_each_run(core::PlanePoint p, double reach, const Do& act) const;

    Columns columns_;
    std::vector<std::size_t> start_;  ///< first piece of each bucket, row by row from the south-west
    core::PlanePoint origin_;
    double side_ = 1.0, a_metre_ = 1.0;  ///< of buckets, m, and buckets in a metre
    double reach_ = 0.0;
    double longest_ = 0.0;  ///< half of the longest piece
    std::size_t bucket_rows_ = 0, bucket_columns_ = 0;
    bool all_points_ = true;
};

}  // namespace roostward::activity
