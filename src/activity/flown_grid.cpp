#include "roostward/activity/flown_grid.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "roostward/activity/kernel.hpp"
#include "roostward/activity/vector_clones.hpp"

namespace roostward::activity {

namespace {

/// Beyond this many widths a kernel on the grid is under 2e-6 of its peak.
constexpr double grid_reach = 5.2;
/// From this many cells on, binning and filtering stays within 3e-5 of the peak.
constexpr double binned_from = 5.0;
constexpr std::size_t stripe_rows = 64;

/// One sample of flight, in cells of the padded field: `column` and `row` count cell centres from 0.
struct Sample {
    double column, row, weight;
};

/// Cubic B-spline weights on the four cells about a place; `first` is the lowest of them. Variance 1/3 cell².
struct Spline {
    std::ptrdiff_t first;
    std::array<double, 4> weight;
};

Spline spline_at(double place) {
    const double whole = std::floor(place);
    const double t = place - whole, s = 1.0 - t;
    return {static_cast<std::ptrdiff_t>(whole) - 1,
            {s * s * s / 6.0, (4.0 - 6.0 * t * t + 3.0 * t * t * t) / 6.0,
             (4.0 - 6.0 * s * s + 3.0 * s * s * s) / 6.0, t * t * t / 6.0}};
}

/// A grid with room around it for kernels that reach in from outside.
struct Field {
    std::size_t rows, columns, pad;
    std::vector<float> cells;
};

/// Samples of the pieces in cells of the padded field, those near enough to be felt. Straight pieces become
/// 3-point Gauss–Legendre nodes on panels of at most two cells.
std::vector<Sample> samples_of(const core::Grid& grid, const std::vector<const Piece*>& pieces,
                               const Field& field) {
    constexpr std::array<double, 3> node{-0.7745966692414834, 0.0, 0.7745966692414834};
    constexpr std::array<double, 3> share{5.0 / 18.0, 8.0 / 18.0, 5.0 / 18.0};
    const double cell = grid.cell.value(), area = cell * cell;
    std::vector<Sample> samples;
    const auto add = [&](double easting, double northing, double weight) {
        const double column =
            (easting - grid.north_west.easting) / cell - 0.5 + static_cast<double>(field.pad);
        const double row =
            (grid.north_west.northing - northing) / cell - 0.5 + static_cast<double>(field.pad);
        if (column < 1.0 || row < 1.0 || column >= static_cast<double>(field.columns - 2) ||
            row >= static_cast<double>(field.rows - 2))
            return;
        samples.push_back({column, row, weight / area});
    };
    for (const Piece* p : pieces) {
        if (p->half_length == 0.0) {
            add(p->middle.easting, p->middle.northing, p->weight);
            continue;
        }
        const double panels = std::ceil(p->half_length / cell);
        const double half_panel = p->half_length / panels;
        for (double i = 0.0; i < panels; i += 1.0)
            for (std::size_t k = 0; k < node.size(); ++k) {
                const double along = -p->half_length + half_panel * (2.0 * i + 1.0 + node[k]);
                add(p->middle.easting + along * p->east, p->middle.northing + along * p->north,
                    p->weight * 2.0 * half_panel * share[k]);
            }
    }
    return samples;
}

/// Adds the samples to the field, stripe by stripe of rows, each stripe taking its samples in order.
void bin(Field& field, const std::vector<Sample>& samples, core::Threads threads) {
    const std::size_t stripes = (field.rows + stripe_rows - 1) / stripe_rows;
    std::vector<std::vector<std::uint32_t>> of_stripe(stripes);
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const auto first = static_cast<std::size_t>(std::floor(samples[i].row)) - 1;
        for (std::size_t s = first / stripe_rows; s <= (first + 3) / stripe_rows && s < stripes; ++s)
            of_stripe[s].push_back(static_cast<std::uint32_t>(i));
    }
    core::parallel_for(stripes, 1, threads, [&](std::size_t stripe, std::size_t) {
        const std::size_t begin = stripe * stripe_rows, end = std::min(field.rows, begin + stripe_rows);
        for (const std::uint32_t i : of_stripe[stripe]) {
            const Spline across = spline_at(samples[i].column), down = spline_at(samples[i].row);
            for (std::size_t r = 0; r < 4; ++r) {
                const auto row = static_cast<std::size_t>(down.first) + r;
                if (row < begin || row >= end) continue;
                const double weight = samples[i].weight * down.weight[r];
                float* cells = &field.cells[row * field.columns + static_cast<std::size_t>(across.first)];
                for (std::size_t c = 0; c < 4; ++c)
                    cells[c] += static_cast<float>(weight * across.weight[c]);
            }
        }
    });
}

/// One side of the sampled Gaussian, the middle first. Its variance is the kernel's less the B-spline's 1/3.
std::vector<float> half_filter(double width_in_cells) {
    const double variance = width_in_cells * width_in_cells - 1.0 / 3.0;
    const auto reach = static_cast<std::size_t>(std::ceil(grid_reach * width_in_cells));
    std::vector<float> taps(reach + 1);
    const double peak = 1.0 / std::sqrt(2.0 * std::numbers::pi * variance);
    for (std::size_t k = 0; k <= reach; ++k)
        taps[k] = static_cast<float>(peak * exp_of(-0.5 * static_cast<double>(k * k) / variance));
    return taps;
}

/// out[i] += tap · (low[i] + high[i])
ROOSTWARD_VECTOR_CLONES
void add_pair(float* out, const float* low, const float* high, float tap, std::size_t n) {
    for (std::size_t i = 0; i < n; ++i)
        out[i] += tap * (low[i] + high[i]);
}

/// Filters along rows, in place, for the columns that the grid needs; then down the columns into `out`.
void filter(Field& field, const std::vector<float>& taps, const core::Grid& grid, std::vector<float>& out,
            core::Threads threads) {
    const std::size_t reach = taps.size() - 1;
    core::parallel_for(field.rows, 16, threads, [&](std::size_t begin, std::size_t end) {
        std::vector<float> sum(grid.columns);
        for (std::size_t row = begin; row < end; ++row) {
            float* cells = &field.cells[row * field.columns + field.pad];
            for (std::size_t i = 0; i < grid.columns; ++i)
                sum[i] = taps[0] * cells[i];
            for (std::size_t k = 1; k <= reach; ++k)
                add_pair(sum.data(), cells - k, cells + k, taps[k], grid.columns);
            std::copy(sum.begin(), sum.end(), cells);
        }
    });
    constexpr std::size_t tile = 512;
    core::parallel_for(grid.rows, 16, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t left = 0; left < grid.columns; left += tile) {
            const std::size_t n = std::min(tile, grid.columns - left);
            for (std::size_t row = begin; row < end; ++row) {
                const float* cells = &field.cells[(row + field.pad) * field.columns + field.pad + left];
                float* sum = &out[row * grid.columns + left];
                for (std::size_t i = 0; i < n; ++i)
                    sum[i] += taps[0] * cells[i];
                for (std::size_t k = 1; k <= reach; ++k)
                    add_pair(sum, cells - k * field.columns, cells + k * field.columns, taps[k], n);
            }
        }
    });
}

void add_binned(const core::Grid& grid, const std::vector<const Piece*>& pieces, double width,
                std::vector<float>& out, core::Threads threads) {
    const std::vector<float> taps = half_filter(width / grid.cell.value());
    const std::size_t pad = taps.size() + 3;
    Field field{grid.rows + 2 * pad, grid.columns + 2 * pad, pad, {}};
    field.cells.assign(field.rows * field.columns, 0.0F);
    bin(field, samples_of(grid, pieces, field), threads);
    filter(field, taps, grid, out, threads);
}

/// Adds one piece to the cells of one row that it reaches.
void add_exact_row(const core::Grid& grid, std::size_t row, const Piece& p, float* out) {
    const double reach = grid_reach * p.width;
    const double y = grid.centre({row, 0}).northing - p.middle.northing;
    const double half_east = reach + p.half_length * std::fabs(p.east);
    if (std::fabs(y) > reach + p.half_length * std::fabs(p.north)) return;
    const double cell = grid.cell.value(), columns = static_cast<double>(grid.columns);
    const double west = (p.middle.easting - half_east - grid.north_west.easting) / cell - 0.5;
    const double east = (p.middle.easting + half_east - grid.north_west.easting) / cell - 0.5;
    const auto begin = static_cast<std::size_t>(std::clamp(std::ceil(west), 0.0, columns));
    const auto end = static_cast<std::size_t>(std::clamp(std::floor(east) + 1.0, 0.0, columns));
    for (std::size_t c = begin; c < end; ++c) {
        const double x = grid.centre({row, c}).easting - p.middle.easting;
        const double kernel =
            p.half_length == 0.0
                ? point_kernel(x * x + y * y, p.width)
                : segment_kernel(y * p.east - x * p.north, x * p.east + y * p.north, p.half_length, p.width);
        out[c] += static_cast<float>(p.weight * kernel);
    }
}

void add_exact(const core::Grid& grid, const std::vector<const Piece*>& pieces, std::vector<float>& out,
               core::Threads threads) {
    core::parallel_for(grid.rows, 4, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t row = begin; row < end; ++row)
            for (const Piece* p : pieces)
                add_exact_row(grid, row, *p, &out[row * grid.columns]);
    });
}

}  // namespace

std::vector<float> flown_on(const core::Grid& grid, const std::vector<Piece>& pieces, core::Threads threads) {
    std::map<double, std::vector<const Piece*>> binned;
    std::vector<const Piece*> exact;
    for (const auto& piece : pieces)
        (piece.width >= binned_from * grid.cell.value() ? binned[piece.width] : exact).push_back(&piece);
    std::vector<float> out(grid.size(), 0.0F);
    for (const auto& [width, members] : binned)
        add_binned(grid, members, width, out, threads);
    if (!exact.empty()) add_exact(grid, exact, out, threads);
    return out;
}

}  // namespace roostward::activity
