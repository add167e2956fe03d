#include "spline_field.hpp"

#include <algorithm>
#include <cmath>

#include "filter_line.hpp"
#include "roostward/activity/kernel.hpp"

namespace roostward::activity {

namespace {

/// Beyond this many widths a kernel is left out: 4e-5 of its peak.
constexpr double filter_reach = 4.5;
/// From this variance on a sampled Gaussian keeps its moments to 1e-4.
constexpr double sampled_from = 0.5;
/// Fourth cumulant of the cubic B-spline, cells⁴: four boxes of −1/120.
constexpr double spline_cumulant = -1.0 / 30.0;

}  // namespace

void TileCells::reset(double from_west, double from_south, double cell_size, std::size_t cells) {
    west = from_west;
    south = from_south;
    cell = cell_size;
    side = cells;
    values.assign(cells * cells, 0.0F);
}

float SplineAt::of(const TileCells& coefficients) const {
    float sum = 0.0F;
    for (std::size_t r = 0; r < 4; ++r) {
        const float* c = coefficients.row(row + r) + column;
        sum += up[r] * (across[0] * c[0] + across[1] * c[1] + across[2] * c[2] + across[3] * c[3]);
    }
    return sum;
}

void TileCells::add(double x, double y, float weight) {
    const SplineAt spline(*this, x, y);
    for (std::size_t r = 0; r < 4; ++r) {
        float* cells = row(spline.row + r) + spline.column;
        for (std::size_t c = 0; c < 4; ++c)
            cells[c] += weight * spline.up[r] * spline.across[c];
    }
}

std::vector<float> taps_of(double variance, int spline_passes) {
    if (variance < sampled_from) {
        const double fourth = -spline_passes * spline_cumulant + 3.0 * variance * variance;
        const double outer = (fourth - variance) / 24.0, next = 0.5 * variance - 4.0 * outer;
        return {static_cast<float>(1.0 - 2.0 * (next + outer)), static_cast<float>(next),
                static_cast<float>(outer)};
    }
    const auto reach = static_cast<std::size_t>(std::ceil(filter_reach * std::sqrt(variance)));
    // Gram–Charlier: a Gaussian times 1 + κ₄/(24 v²) · He₄ has the fourth cumulant κ₄.
    const double cumulant = -spline_passes * spline_cumulant / (24.0 * variance * variance);
    std::vector<double> exact(reach + 1);
    double sum = 0.0;
    for (std::size_t k = 0; k <= reach; ++k) {
        const double z2 = static_cast<double>(k * k) / variance;
        exact[k] = exp_of(-0.5 * z2) * (1.0 + cumulant * (z2 * z2 - 6.0 * z2 + 3.0));
        sum += (k == 0 ? 1.0 : 2.0) * exact[k];
    }
    std::vector<float> taps(exact.size());
    for (std::size_t k = 0; k <= reach; ++k)
        taps[k] = static_cast<float>(exact[k] / sum);
    return taps;
}

void add_filtered(const TileCells& from, const std::vector<float>& taps, float share, TileCells& to,
                  std::vector<float>& scratch) {
    const std::size_t margin = (from.side - to.side) / 2, reach = taps.size() - 1;
    scratch.assign(from.side * to.side, 0.0F);
    for (std::size_t r = margin - reach; r < from.side - margin + reach; ++r)
        filter_line(from.row(r) + margin, 1, taps, to.side, 1.0F, &scratch[r * to.side]);
    for (std::size_t r = 0; r < to.side; ++r)
        filter_line(&scratch[(r + margin) * to.side], to.side, taps, to.side, share, to.row(r));
}

SplineRow::SplineRow(const TileCells& like, double west, double step, std::size_t count) {
    for (std::size_t i = 0; i < count; ++i) {
        const SplineAt at(like, west + (static_cast<double>(i) + 0.5) * step, like.south + 2.5 * like.cell);
        first_.push_back(at.column);
        weights_.push_back(at.across);
    }
}

void SplineRow::sample(const TileCells& coefficients, double y, std::vector<float>& scratch,
                       float* out) const {
    const SplineAt at(coefficients, coefficients.west + 2.5 * coefficients.cell, y);
    const float *a = coefficients.row(at.row), *b = coefficients.row(at.row + 1),
                *c = coefficients.row(at.row + 2), *d = coefficients.row(at.row + 3);
    scratch.resize(coefficients.side);
    for (std::size_t i = 0; i < coefficients.side; ++i)
        scratch[i] = at.up[0] * a[i] + at.up[1] * b[i] + at.up[2] * c[i] + at.up[3] * d[i];
    for (std::size_t i = 0; i < first_.size(); ++i) {
        const float* s = &scratch[first_[i]];
        const auto& w = weights_[i];
        out[i] = w[0] * s[0] + w[1] * s[1] + w[2] * s[2] + w[3] * s[3];
    }
}

}  // namespace roostward::activity
