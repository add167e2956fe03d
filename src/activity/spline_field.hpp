#pragma once

#include <array>
#include <cstddef>
#include <vector>

namespace roostward::activity {

/// Of the cubic B-spline, cells².
inline constexpr double spline_variance = 1.0 / 3.0;
/// Cells that a spline surface needs beyond the ground that it is read on.
inline constexpr std::size_t spline_margin = 2;

/// Values at the cells of a square tile and its surroundings, whose middles lie `cell` apart.
struct TileCells {
    double west = 0.0, south = 0.0;  ///< outer corner of the first cell
    double cell = 1.0;               ///< m
    std::size_t side = 0;            ///< cells along one side
    std::vector<float> values;       ///< row by row from the south

    void reset(double from_west, double from_south, double cell_size, std::size_t cells);
    /// Adds `weight` at a place, shared out by the cubic B-spline of one cell. The place keeps two cells off
    /// the edge.
    void add(double x, double y, float weight);
    [[nodiscard]] float* row(std::size_t r) { return &values[r * side]; }
    [[nodiscard]] const float* row(std::size_t r) const { return &values[r * side]; }
};

/// One side of a filter, the middle first, that adds `variance` (cells²) with the fourth moment of a Gaussian
/// once `spline_passes` cubic B-splines have been applied too. The variance may be a little below 0, which
/// sharpens.
[[nodiscard]] std::vector<float> taps_of(double variance, int spline_passes);

/// Adds `share` of the filtered `from` to `to`, which has `margin` cells fewer on each side, margin >= taps.
/// `scratch` is room to work in.
void add_filtered(const TileCells& from, const std::vector<float>& taps, float share, TileCells& to,
                  std::vector<float>& scratch);

/// Cubic B-spline weights at a place in a tile, at least two cells off its edge, and the four rows and
/// columns that they belong to.
struct SplineAt {
    std::size_t row, column;
    std::array<float, 4> across, up;

    SplineAt(const TileCells& like, double x, double y) {
        const double u = (x - like.west) / like.cell - 0.5, v = (y - like.south) / like.cell - 0.5;
        const auto left = static_cast<std::size_t>(u), low = static_cast<std::size_t>(v);
        column = left - 1;
        row = low - 1;
        across = weights(static_cast<float>(u - static_cast<double>(left)));
        up = weights(static_cast<float>(v - static_cast<double>(low)));
    }
    /// The spline surface of which the tile holds the coefficients.
    [[nodiscard]] float of(const TileCells& coefficients) const;

 private:
    static std::array<float, 4> weights(float t) {
        constexpr float sixth = 1.0F / 6.0F;
        const float s = 1.0F - t;
        return {sixth * s * s * s, sixth * (4.0F + t * t * (3.0F * t - 6.0F)),
                sixth * (4.0F + s * s * (3.0F * s - 6.0F)), sixth * t * t * t};
    }
};

/// Reads spline surfaces at evenly spaced places of one row.
class SplineRow {
 public:
    /// Places at west + (i + ½) step.
    SplineRow(const TileCells& like, double west, double step, std::size_t count);
    void sample(const TileCells& coefficients, double y, std::vector<float>& scratch, float* out) const;

 private:
    std::vector<std::size_t> first_;
    std::vector<std::array<float, 4>> weights_;
};

}  // namespace roostward::activity
