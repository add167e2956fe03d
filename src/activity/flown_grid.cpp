#include "roostward/activity/flown_grid.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "roostward/activity/kernel.hpp"
#include "roostward/activity/smooth_field.hpp"

namespace roostward::activity {

namespace {

/// Beyond this many widths a kernel on the grid is under 2e-6 of its peak.
constexpr double grid_reach = 5.2;
/// Samples are made and spread this many at a time, so that they need little room.
constexpr std::size_t block = 65536;

/// A point is one sample; a straight piece becomes 3-point Gauss–Legendre nodes on panels of at most two
/// thirds of a width, exact to 1e-7.
void append_samples(const Piece& p, std::vector<Sample>& samples) {
    constexpr std::array<double, 3> node{-0.7745966692414834, 0.0, 0.7745966692414834};
    constexpr std::array<double, 3> share{5.0 / 18.0, 8.0 / 18.0, 5.0 / 18.0};
    if (p.half_length == 0.0) {
        samples.push_back({p.middle, p.weight});
        return;
    }
    const double panels = std::ceil(3.0 * p.half_length / p.width);
    const double half_panel = p.half_length / panels;
    for (std::size_t panel = 0; panel < static_cast<std::size_t>(panels); ++panel) {
        const auto i = static_cast<double>(panel);
        for (std::size_t k = 0; k < node.size(); ++k) {
            const double along = -p.half_length + half_panel * (2.0 * i + 1.0 + node[k]);
            samples.push_back({{p.middle.easting + along * p.east, p.middle.northing + along * p.north},
                               p.weight * 2.0 * half_panel * share[k]});
        }
    }
}

void add_smooth(const core::Grid& grid, const std::vector<const Piece*>& pieces, double width,
                std::vector<float>& out, core::Threads threads) {
    SmoothField field(grid, width);
    std::vector<Sample> samples;
    samples.reserve(block);
    for (const Piece* piece : pieces) {
        append_samples(*piece, samples);
        if (samples.size() < block) continue;
        field.add(samples, threads);
        samples.clear();
    }
    field.add(samples, threads);
    field.add_to(out, threads);
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
    constexpr std::size_t stripe = 16;
    core::parallel_for(grid.rows, stripe, threads, [&](std::size_t begin, std::size_t end) {
        const double north = grid.centre({begin, 0}).northing, south = grid.centre({end - 1, 0}).northing;
        for (const Piece* p : pieces) {
            const double reach = grid_reach * p->width + p->half_length * std::fabs(p->north);
            if (p->middle.northing - reach > north || p->middle.northing + reach < south) continue;
            for (std::size_t row = begin; row < end; ++row)
                add_exact_row(grid, row, *p, &out[row * grid.columns]);
        }
    });
}

/// Whether windows about so few pieces have fewer cells than the grid has.
bool few(std::size_t pieces, double width, const core::Grid& grid) {
    const double side = 2.0 * grid_reach * width / grid.cell.value();
    return static_cast<double>(pieces) * side * side < static_cast<double>(grid.size());
}

}  // namespace

std::vector<float> flown_on(const core::Grid& grid, const std::vector<Piece>& pieces, core::Threads threads) {
    std::map<double, std::vector<const Piece*>> of_width;
    for (const auto& piece : pieces)
        of_width[piece.width].push_back(&piece);
    std::vector<float> out(grid.size(), 0.0F);
    for (const auto& [width, members] : of_width) {
        const bool narrow = width < SmoothField::least_cells * grid.cell.value();
        if (narrow || few(members.size(), width, grid)) {
            add_exact(grid, members, out, threads);
        } else {
            add_smooth(grid, members, width, out, threads);
        }
    }
    return out;
}

}  // namespace roostward::activity
