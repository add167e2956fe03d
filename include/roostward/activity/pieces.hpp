#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "roostward/core/grid.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::activity {

/// A straight piece of flight, or a point where the direction is unknown (half_length = 0).
struct Piece {
    core::PlanePoint middle;
    double east = 0.0, north = 0.0;  ///< unit vector along it
    double half_length = 0.0;        ///< m
    double weight = 0.0;             ///< metres flown: per metre, for a straight piece; in all, for a point
    double width = 0.0;              ///< h_i = √(h² + accuracy²), m
    std::uint32_t evening = 0;
};

/// The placed flights as straight pieces, in their order, none longer than `longest`.
[[nodiscard]] std::vector<Piece> pieces_of(const survey::Survey& survey, core::Metres h,
                                           core::Metres longest);

/// Widest kernel among the pieces; 0 without pieces.
[[nodiscard]] double widest(const std::vector<Piece>& pieces);

/// Pieces in square buckets, one array a member, so that the sums over them become vector instructions.
/// Within a bucket they keep their order.
class PieceBuckets {
 public:
    /// `reach`: how far from a piece's nearest point its kernel is felt.
    PieceBuckets(std::span<const Piece* const> pieces, double reach);
    PieceBuckets(const std::vector<Piece>& pieces, double reach);

    /// For one evening table row: adds each piece's kernel at `p` to flown[evening], and counts in
    /// used[evening] the pieces that pass within `close` (inclusive). The order of summation depends on
    /// nothing but the pieces.
    void add_at(core::PlanePoint p, double close, double* flown, std::uint32_t* used) const;

 private:
    struct Columns {
        std::vector<double> x, y, east, north, half_length, weight, width, precision;
        std::vector<std::uint32_t> evening;
    };
    [[nodiscard]] std::size_t bucket_column(double easting) const;
    [[nodiscard]] std::size_t bucket_row(double northing) const;
    void add_range(std::size_t begin, std::size_t end, core::PlanePoint p, double close, double* flown,
                   std::uint32_t* used) const;

    Columns columns_;
    std::vector<std::size_t> start_;  ///< first piece of each bucket, row by row from the south-west
    core::PlanePoint origin_;
    double side_ = 1.0;
    double reach_ = 0.0;
    double longest_ = 0.0;  ///< half of the longest piece
    std::size_t bucket_rows_ = 0, bucket_columns_ = 0;
    bool all_points_ = true;
};

}  // namespace roostward::activity
