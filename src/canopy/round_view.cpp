#include "roostward/canopy/round_view.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "roostward/core/ray.hpp"

namespace roostward::canopy {

namespace {

constexpr float infinite = std::numeric_limits<float>::infinity();
constexpr float unknown = std::numeric_limits<float>::quiet_NaN();
constexpr float shut_out = 90.0F;
constexpr double step = 360.0 / static_cast<double>(rays);

/// A step of 1 m along each ray.
const std::array<core::PlanePoint, rays>& steps() {
    static const std::array<core::PlanePoint, rays> all = [] {
        std::array<core::PlanePoint, rays> made;
        for (std::size_t ray = 0; ray < rays; ++ray)
            made[ray] = core::moved({0.0, 0.0}, bearing_of(ray), core::Metres(1.0));
        return made;
    }();
    return all;
}

float degrees_of(double tangent) {
    return static_cast<float>(std::atan(tangent) * 180.0 / std::numbers::pi);
}

/// What one ray has met so far.
struct Seen {
    bool in_own_crown = true;
    std::optional<double> first;  ///< metres to the first canopy above the entrance
    double steepest = 0.0;        ///< tangent of the horizon
    double came = 0.0;            ///< metres, until unknown ground or the end of the model
};

Seen look_along(const BlockTops& tops, const Entrance& entrance, double highest, core::PlanePoint ahead,
                double steep_enough) {
    Seen seen;
    const core::Raster& canopy = tops.canopy_height();
    const double height = entrance.height.value(), half_cell = 0.5 * canopy.grid.cell.value();
    core::Ray at(canopy.grid, entrance.stem, ahead);
    // Canopy no higher than this line changes nothing from there on.
    const auto covers = [&](double above) { return above <= seen.steepest * at.entered(); };
    const auto settled = [&] {
        return seen.steepest >= steep_enough && (seen.first || at.entered() >= clear_looked.value());
    };
    while (at.entered() < horizon_looked.value() && !covers(highest) && !settled()) {
        seen.came = at.entered();
        if (!at.on_grid()) return seen;
        if (covers(static_cast<double>(tops.over(at.cell())) - height)) {
            seen.in_own_crown = false;
            at.leave_block(BlockTops::side);
            continue;
        }
        if (canopy.known[at.index()] == 0) return seen;
        const double above = static_cast<double>(canopy.values[at.index()]) - height;
        seen.in_own_crown = seen.in_own_crown && above > 0.0 && at.entered() < entrance.crown_radius.value();
        if (above > 0.0 && !seen.in_own_crown) {
            if (!seen.first) seen.first = at.entered();
            seen.steepest = std::max(seen.steepest, above / std::max(at.entered(), half_cell));
        }
        at.step();
    }
    seen.came = horizon_looked.value();
    return seen;
}

bool is_known(const core::Raster& raster, core::Cell first, std::size_t cells) {
    const auto* const begin = &raster.known[raster.grid.index(first)];
    return std::find(begin, begin + cells, std::uint8_t{0}) == begin + cells;
}

float highest_in(const core::Raster& raster, core::Cell first) {
    constexpr std::size_t side = BlockTops::side;
    if (first.row + side > raster.grid.rows || first.column + side > raster.grid.columns) return infinite;
    std::array<float, side> highest{};
    for (std::size_t row = 0; row < side; ++row) {
        if (!is_known(raster, {first.row + row, first.column}, side)) return infinite;
        const float* const values = &raster.values[raster.grid.index({first.row + row, first.column})];
        for (std::size_t i = 0; i < side; ++i)
            highest[i] = row == 0 || values[i] > highest[i] ? values[i] : highest[i];
    }
    return *std::ranges::max_element(highest);
}

}  // namespace

core::Degrees bearing_of(std::size_t ray) {
    return core::Degrees(static_cast<double>(ray) * step);
}

BlockTops::BlockTops(const core::Raster& canopy_height, core::Threads threads)
    : canopy_height_(canopy_height),
      rows_((canopy_height.grid.rows + side - 1) / side),
      columns_((canopy_height.grid.columns + side - 1) / side),
      tops_(rows_ * columns_) {
    core::parallel_for(rows_, 16, threads, [this](std::size_t begin, std::size_t end) {
        for (std::size_t row = begin; row < end; ++row)
            for (std::size_t column = 0; column < columns_; ++column)
                tops_[row * columns_ + column] = highest_in(canopy_height_, {row * side, column * side});
    });
}

float BlockTops::about(core::PlanePoint point, core::Metres reach) const {
    const core::Grid& grid = canopy_height_.grid;
    const auto first = grid.cell_of({point.easting - reach.value(), point.northing + reach.value()});
    const auto last = grid.cell_of({point.easting + reach.value(), point.northing - reach.value()});
    if (!first || !last) return infinite;
    float highest = -infinite;
    for (std::size_t row = first->row / side; row <= last->row / side; ++row)
        for (std::size_t column = first->column / side; column <= last->column / side; ++column)
            highest = std::max(highest, tops_[row * columns_ + column]);
    return highest;
}

RoundView look_round(const BlockTops& tops, const Entrance& entrance, const Slopes& steep_enough) {
    RoundView view{};
    const double highest =
        static_cast<double>(tops.about(entrance.stem, horizon_looked)) - entrance.height.value();
    const bool all_known = std::isfinite(highest);
    for (std::size_t ray = 0; ray < rays; ++ray) {
        const double enough = all_known ? steep_enough[ray] : std::numeric_limits<double>::infinity();
        const Seen seen = look_along(tops, entrance, highest, steps()[ray], enough);
        const double clear = std::min(seen.first.value_or(seen.came), clear_looked.value());
        const bool clear_known = seen.first || seen.came >= clear_looked.value();
        view.clear[ray] = clear_known ? static_cast<float>(clear) : unknown;
        view.horizon[ray] = seen.steepest >= enough               ? shut_out
                            : seen.came >= horizon_looked.value() ? degrees_of(seen.steepest)
                                                                  : unknown;
    }
    return view;
}

Wedge wedge_about(core::Degrees grid_bearing, core::Degrees to_each_side) {
    const auto middle = static_cast<std::size_t>(std::lround(core::normalised(grid_bearing).value() / step));
    const auto aside = std::min(rays / 2, static_cast<std::size_t>(to_each_side.value() / step) + 1);
    Wedge wedge;
    for (std::size_t i = middle + rays - aside; i <= middle + rays + aside; ++i) {
        const std::size_t ray = i % rays;
        if (core::turn_between(bearing_of(ray), grid_bearing) > to_each_side) continue;
        if (wedge.count == 0) wedge.first = ray;
        ++wedge.count;
    }
    return wedge;
}

std::optional<core::Metres> clear_in(const RoundView& view, Wedge wedge) {
    float least = static_cast<float>(clear_looked.value());
    for (std::size_t i = wedge.first; i < wedge.first + wedge.count; ++i) {
        const float clear = view.clear[i % rays];
        if (std::isnan(clear)) return std::nullopt;
        least = std::min(least, clear);
    }
    return core::Metres(static_cast<double>(least));
}

std::optional<core::Metres> drop_toward(const core::Raster& canopy_height, const Entrance& entrance,
                                        core::Degrees grid_bearing, core::Degrees to_each_side,
                                        core::Metres within) {
    const double height = entrance.height.value();
    std::optional<double> highest;
    for (std::size_t ray = 0; ray < rays; ++ray) {
        if (core::turn_between(bearing_of(ray), grid_bearing) > to_each_side) continue;
        core::Ray at(canopy_height.grid, entrance.stem, steps()[ray]);
        for (; at.entered() < within.value(); at.step()) {
            if (!at.on_grid() || canopy_height.known[at.index()] == 0) return std::nullopt;
            const auto top = static_cast<double>(canopy_height.values[at.index()]);
            if (top <= height) highest = std::max(highest.value_or(top), top);
        }
    }
    return highest ? std::optional(core::Metres(height - *highest)) : std::nullopt;
}

}  // namespace roostward::canopy
