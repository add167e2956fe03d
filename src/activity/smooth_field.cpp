#include "roostward/activity/smooth_field.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

#include "filter_line.hpp"
#include "roostward/activity/kernel.hpp"
#include "roostward/core/vector_clones.hpp"

namespace roostward::activity {

namespace {

/// Coarse cells are as large as they can be with this many of them a width.
constexpr double enough_cells = 3.0;
/// Beyond this many widths a kernel on the grid is under 2e-6 of its peak.
constexpr double grid_reach = 5.2;
constexpr std::size_t stripe_rows = 32;
constexpr std::size_t spline_nodes = 6;
constexpr std::size_t lanes = 8;  ///< the nodes and zeros, for one vector instruction

/// Quintic B-spline weights on the six cells about a place; `first` is the lowest of them.
struct Spline {
    std::size_t first = 0;
    std::array<float, lanes> weight{};
};

Spline spline_at(double place) {
    const double whole = std::floor(place);
    const double t = place - whole, t2 = t * t, t3 = t2 * t, t4 = t2 * t2, t5 = t4 * t, s = 1.0 - t;
    const std::array<double, spline_nodes> weight{
        s * s * s * s * s,
        26.0 - 50.0 * t + 20.0 * t2 + 20.0 * t3 - 20.0 * t4 + 5.0 * t5,
        66.0 - 60.0 * t2 + 30.0 * t4 - 10.0 * t5,
        26.0 + 50.0 * t + 20.0 * t2 - 20.0 * t3 - 20.0 * t4 + 10.0 * t5,
        1.0 + 5.0 * t + 10.0 * t2 + 10.0 * t3 + 5.0 * t4 - 5.0 * t5,
        t5};
    Spline spline{static_cast<std::size_t>(whole) - 2, {}};
    for (std::size_t k = 0; k < spline_nodes; ++k)
        spline.weight[k] = static_cast<float>(weight[k] / 120.0);
    return spline;
}

/// Adds metres spread over six rows and six columns, of which the rows in [begin, end) are wanted.
ROOSTWARD_VECTOR_CLONES
void spread(float* cells, std::size_t columns, const Spline& across, const Spline& down, float metres,
            std::size_t begin, std::size_t end) {
    const std::size_t from = std::max(begin, down.first), to = std::min(end, down.first + spline_nodes);
    for (std::size_t row = from; row < to; ++row) {
        const float share = metres * down.weight[row - down.first];
        float* const at = cells + row * columns + across.first;
        for (std::size_t c = 0; c < lanes; ++c)
            at[c] += share * across.weight[c];
    }
}

/// One side of the sampled filter: a Gaussian of `width` cells from which `splines` quintic B-splines are
/// taken out. Each has the spectrum (sin(ω/2)/(ω/2))⁶ = exp(−6(ω²/24 + ω⁴/2880 + ω⁶/181440 + …)).
std::vector<float> half_filter(double width, double splines) {
    const double variance = width * width - splines * 0.5;
    const double fourth = splines * 6.0 / 2880.0, sixth = splines * 6.0 / 181440.0;
    const auto reach = static_cast<std::size_t>(std::ceil(grid_reach * width));
    std::vector<float> taps(reach + 1);
    const double peak = 1.0 / std::sqrt(2.0 * std::numbers::pi * variance);
    for (std::size_t k = 0; k <= reach; ++k) {
        const double u2 = static_cast<double>(k * k) / variance;
        const double he4 = u2 * u2 - 6.0 * u2 + 3.0, he6 = u2 * (u2 * (u2 - 15.0) + 45.0) - 15.0;
        const double shape =
            1.0 + fourth * he4 / (variance * variance) - sixth * he6 / (variance * variance * variance);
        taps[k] = static_cast<float>(peak * exp_of(-0.5 * u2) * shape);
    }
    return taps;
}

/// out[i] += Σ weight[k] · row k [i]
ROOSTWARD_VECTOR_CLONES
void add_six(float* out, const float* rows, std::size_t stride, const float* weight, std::size_t n) {
    for (std::size_t i = 0; i < n; ++i) {
        float sum = 0.0F;
        for (std::size_t k = 0; k < spline_nodes; ++k)
            sum += weight[k] * rows[k * stride + i];
        out[i] += sum;
    }
}

float six_of(const float* cells, const Spline& spline) {
    float sum = 0.0F;
    for (std::size_t k = 0; k < spline_nodes; ++k)
        sum += spline.weight[k] * cells[spline.first + k];
    return sum;
}

}  // namespace

SmoothField::SmoothField(const core::Grid& grid, double width) : grid_(grid) {
    const double cell = grid.cell.value();
    factor_ = static_cast<std::size_t>(std::max(1.0, std::floor(width / (enough_cells * cell))));
    coarse_ = cell * static_cast<double>(factor_);
    taps_ = half_filter(width / coarse_, factor_ == 1 ? 1.0 : 2.0);
    pad_ = taps_.size() + spline_nodes;
    rows_ = (grid.rows + factor_ - 1) / factor_ + 2 * pad_;
    columns_ = (grid.columns + factor_ - 1) / factor_ + 2 * pad_;
    cells_.assign(rows_ * columns_ + lanes, 0.0F);
}

double SmoothField::column_of(double easting) const {
    return (easting - grid_.north_west.easting) / coarse_ - 0.5 + static_cast<double>(pad_);
}

double SmoothField::row_of(double northing) const {
    return (grid_.north_west.northing - northing) / coarse_ - 0.5 + static_cast<double>(pad_);
}

void SmoothField::add(std::span<const Sample> samples, core::Threads threads) {
    constexpr std::size_t half = spline_nodes / 2;
    const auto first = static_cast<double>(half);
    const double last_row = static_cast<double>(rows_) - first - 1.0,
                 last_column = static_cast<double>(columns_) - first - 1.0;
    std::vector<std::vector<std::uint32_t>> of_stripe((rows_ + stripe_rows - 1) / stripe_rows);
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double row = row_of(samples[i].place.northing), column = column_of(samples[i].place.easting);
        if (!(row >= first && row <= last_row && column >= first && column <= last_column)) continue;
        const std::size_t top = static_cast<std::size_t>(row) - 2;
        for (std::size_t s = top / stripe_rows; s <= (top + spline_nodes - 1) / stripe_rows; ++s)
            of_stripe[s].push_back(static_cast<std::uint32_t>(i));
    }
    core::parallel_for(of_stripe.size(), 1, threads, [&](std::size_t stripe, std::size_t) {
        add_stripe(samples, of_stripe[stripe], stripe * stripe_rows,
                   std::min(rows_, (stripe + 1) * stripe_rows));
    });
}

void SmoothField::add_stripe(std::span<const Sample> samples, std::span<const std::uint32_t> own,
                             std::size_t begin, std::size_t end) {
    const double area = coarse_ * coarse_;
    for (const std::uint32_t i : own) {
        const Spline across = spline_at(column_of(samples[i].place.easting));
        const Spline down = spline_at(row_of(samples[i].place.northing));
        spread(cells_.data(), columns_, across, down, static_cast<float>(samples[i].metres / area), begin,
               end);
    }
}

void SmoothField::filter(core::Threads threads) {
    const std::size_t reach = taps_.size() - 1, width = columns_ - 2 * reach;
    core::parallel_for(rows_, 16, threads, [&](std::size_t begin, std::size_t end) {
        std::vector<float> sum(width);
        for (std::size_t row = begin; row < end; ++row) {
            float* const cells = &cells_[row * columns_ + reach];
            std::ranges::fill(sum, 0.0F);
            filter_line(cells, 1, taps_, width, 1.0F, sum.data());
            std::copy(sum.begin(), sum.end(), cells);
        }
    });
    std::vector<float> smooth(cells_.size(), 0.0F);
    core::parallel_for(rows_ - 2 * reach, 16, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t row = begin + reach; row < end + reach; ++row)
            filter_line(&cells_[row * columns_], columns_, taps_, columns_, 1.0F, &smooth[row * columns_]);
    });
    cells_ = std::move(smooth);
}

void SmoothField::add_to(std::vector<float>& out, core::Threads threads) {
    filter(threads);
    if (factor_ == 1) {
        core::parallel_for(grid_.rows, 16, threads, [&](std::size_t begin, std::size_t end) {
            for (std::size_t row = begin; row < end; ++row)
                for (std::size_t c = 0; c < grid_.columns; ++c)
                    out[row * grid_.columns + c] += cells_[(row + pad_) * columns_ + pad_ + c];
        });
        return;
    }
    std::vector<Spline> across(grid_.columns);
    for (std::size_t c = 0; c < grid_.columns; ++c)
        across[c] = spline_at(column_of(grid_.centre({0, c}).easting));
    std::vector<float> wide(rows_ * grid_.columns);
    core::parallel_for(rows_, 8, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t row = begin; row < end; ++row)
            for (std::size_t c = 0; c < grid_.columns; ++c)
                wide[row * grid_.columns + c] = six_of(&cells_[row * columns_], across[c]);
    });
    core::parallel_for(grid_.rows, 16, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t row = begin; row < end; ++row) {
            const Spline down = spline_at(row_of(grid_.centre({row, 0}).northing));
            add_six(&out[row * grid_.columns], &wide[down.first * grid_.columns], grid_.columns,
                    down.weight.data(), grid_.columns);
        }
    });
}

}  // namespace roostward::activity
