#include "tile_sum.hpp"

#include <algorithm>
#include <bit>
#include <numbers>

#include "roostward/core/vector_clones.hpp"

namespace roostward::activity {

namespace {

constexpr double least_share_of_mean = 1e-6;
constexpr std::size_t blocks = tile_side / 2;

/// ln x for finite x > 0, to 1e-15: the same bits on every processor, without branches.
[[gnu::always_inline]] inline double log_of(double x) {
    constexpr std::uint64_t sqrt_half = 0x3fe6a09e667f3bcdULL;
    const std::uint64_t bits = std::bit_cast<std::uint64_t>(x);
    const std::uint64_t above = bits - sqrt_half;
    const auto exponent = static_cast<std::int64_t>(above) >> 52;
    const double m = std::bit_cast<double>(bits - (static_cast<std::uint64_t>(exponent) << 52U));
    const double s = (m - 1.0) / (m + 1.0), z = s * s;
    double p = 1.0 / 19.0;
    for (const double odd : {17.0, 15.0, 13.0, 11.0, 9.0, 7.0, 5.0, 3.0, 1.0})
        p = p * z + 1.0 / odd;
    return static_cast<double>(exponent) * std::numbers::ln2 + 2.0 * s * p;
}

/// value[i] = weight · log λ
ROOSTWARD_VECTOR_CLONES
void log_rates(const float* flown, const float* smoothed, const float* weight, std::size_t n, double shrink,
               double mean, double* value) {
    const double least = least_share_of_mean * mean;
    for (std::size_t i = 0; i < n; ++i) {
        const double rate =
            (static_cast<double>(flown[i]) + shrink * mean) / (static_cast<double>(smoothed[i]) + shrink);
        value[i] = static_cast<double>(weight[i]) * log_of(rate > least ? rate : least);
    }
}

/// sum[i] += observable · λ
ROOSTWARD_VECTOR_CLONES
void add_rates(const float* observable, const float* flown, const float* smoothed, std::size_t n,
               float shrink, float mean, float* sum) {
    for (std::size_t i = 0; i < n; ++i)
        sum[i] += observable[i] * (flown[i] + shrink * mean) / (smoothed[i] + shrink);
}

ROOSTWARD_VECTOR_CLONES
void subtract(const float* all, const float* own, std::size_t n, float* others) {
    for (std::size_t i = 0; i < n; ++i)
        others[i] = all[i] > own[i] ? all[i] - own[i] : 0.0F;
}

void subtract(const TileCells& all, const TileCells& own, TileCells& others) {
    others = all;
    if (!own.values.empty())
        subtract(all.values.data(), own.values.data(), all.values.size(), others.values.data());
}

ROOSTWARD_VECTOR_CLONES
void add(const float* own, std::size_t n, float* all) {
    for (std::size_t i = 0; i < n; ++i)
        all[i] += own[i];
}

void add(const TileCells& own, TileCells& all) {
    add(own.values.data(), own.values.size(), all.values.data());
}

/// Calls `use(x, y, share)` for a point, or for Gauss–Legendre nodes of two on panels of at most three cells.
template <class Use>
void for_each_node(const Stretch& stretch, double cell, const Use& use) {
    const core::PlanePoint from = stretch.from, to = stretch.to;
    if (from == to) return use(from.easting, from.northing, 1.0);
    const double panels = std::ceil(core::distance(from, to).value() / (3.0 * cell));
    for (std::size_t panel = 0; panel < static_cast<std::size_t>(panels); ++panel) {
        const auto k = static_cast<double>(panel);
        for (const double node : {-0.5 * std::numbers::inv_sqrt3, 0.5 * std::numbers::inv_sqrt3}) {
            const double t = (k + 0.5 + node) / panels;
            use(from.easting + t * (to.easting - from.easting),
                from.northing + t * (to.northing - from.northing), 0.5 / panels);
        }
    }
}

/// The part of ascending indices whose items are of one evening, from `begin` on, which moves past it.
template <class Item>
std::span<const std::uint32_t> of_evening(const std::vector<std::uint32_t>& indices,
                                          const std::vector<Item>& items, std::uint32_t evening,
                                          std::size_t& begin) {
    const std::size_t first = begin;
    while (begin < indices.size() && items[indices[begin]].evening == evening)
        ++begin;
    return std::span(indices).subspan(first, begin - first);
}

}  // namespace

TileSum::TileSum(const EveningModel& model, double h, std::span<const double> shrinks, const Tile& tile)
    : model_(model),
      shrinks_(shrinks),
      tile_(tile),
      effort_layer_(model, h, tile),
      sums_(shrinks.size(), 0.0) {
    const double cell = tile.cell();
    std::size_t margin = 2;
    for (const Blur& blur : model.blurs) {
        const double width = blur.flown_width(h) / cell;
        // Shared out by one spline and read through another.
        flown_taps_.push_back(taps_of(width * width - 2.0 * spline_variance, 2));
        margin = std::max(margin, flown_taps_.back().size() + 1);
    }
    const auto lay = [&](TileCells& cells, std::size_t beyond) {
        const double wide = static_cast<double>(beyond) * cell;
        cells.reset(tile.box.south_west.easting - wide, tile.box.south_west.northing - wide, cell,
                    tile_side + 2 * beyond);
    };
    lay(binned_, spline_margin + margin);
    lay(all_.flown, spline_margin);
    all_.effort = effort_layer_.none();
}

std::vector<double> TileSum::run() {
    lay_evenings();
    for (const OfEvening& of : evenings_) {
        subtract(of.own);
        add_observations(of);
        add_expected(of);
    }
    return sums_;
}

void TileSum::lay_evenings() {
    const bool even = !model_.even_ground.empty();
    const TileEffort of_ground = even ? effort_layer_.of_even_ground() : TileEffort{};
    std::size_t stretch = 0, spot = 0;
    for (std::uint32_t n = 0; n < model_.evenings; ++n) {
        OfEvening of{n,
                     of_evening(tile_.stretches, model_.stretches, n, stretch),
                     of_evening(tile_.spots, model_.spots, n, spot),
                     {}};
        if (!of.stretches.empty()) {
            of.own.flown = flown_by(of.stretches);
            add(of.own.flown, all_.flown);
        }
        if (even) of.own.effort = of_ground;
        if (!of.spots.empty()) of.own.effort = effort_layer_.of_spots(of.spots);
        if (even || !of.spots.empty()) {
            add(of.own.effort.smoothed, all_.effort.smoothed);
            add(of.own.effort.unplaced, all_.effort.unplaced);
        }
        if (even || !of.stretches.empty() || !of.spots.empty()) evenings_.push_back(std::move(of));
    }
}

TileCells TileSum::flown_by(std::span<const std::uint32_t> stretches) {
    TileCells flown = all_.flown;
    std::ranges::fill(flown.values, 0.0F);
    const double cell = tile_.cell(), per_area = 1.0 / (cell * cell);
    const double first = 1.5 * cell, last = (static_cast<double>(binned_.side) - 2.0) * cell;
    for (std::uint32_t blur = 0; blur < model_.blurs.size(); ++blur) {
        std::ranges::fill(binned_.values, 0.0F);
        bool any = false;
        for (const std::uint32_t i : stretches) {
            const Stretch& stretch = model_.stretches[i];
            if (stretch.blur != blur) continue;
            any = true;
            for_each_node(stretch, cell, [&](double x, double y, double share) {
                const double dx = x - binned_.west, dy = y - binned_.south;
                if (dx < first || dy < first || dx >= last || dy >= last) return;
                binned_.add(x, y, static_cast<float>(stretch.metres * share * per_area));
            });
        }
        if (any) add_filtered(binned_, flown_taps_[blur], 1.0F, flown, scratch_);
    }
    return flown;
}

void TileSum::subtract(const Surfaces& own) {
    activity::subtract(all_.flown, own.flown, others_.flown);
    activity::subtract(all_.effort.smoothed, own.effort.smoothed, others_.effort.smoothed);
    if (model_.unplaced)
        activity::subtract(all_.effort.unplaced, own.effort.unplaced, others_.effort.unplaced);
}

void TileSum::add_observations(const OfEvening& of) {
    std::vector<float> flown, smoothed, weight;
    const core::PlanePoint low = tile_.box.south_west, high = tile_.box.north_east;
    for (const std::uint32_t i : of.stretches) {
        const Stretch& stretch = model_.stretches[i];
        for_each_node(stretch, tile_.cell(), [&](double x, double y, double share) {
            if (x < low.easting || y < low.northing || x >= high.easting || y >= high.northing) return;
            const SplineAt of_effort(others_.effort.smoothed, x, y);
            float metres = SplineAt(others_.flown, x, y).of(others_.flown);
            if (model_.unplaced) metres += of_effort.of(others_.effort.unplaced);
            flown.push_back(std::max(metres, 0.0F));
            smoothed.push_back(std::max(of_effort.of(others_.effort.smoothed), 0.0F));
            weight.push_back(static_cast<float>(stretch.observations * share));
        });
    }
    std::vector<double> value(weight.size());
    for (std::size_t k = 0; k < shrinks_.size(); ++k) {
        log_rates(flown.data(), smoothed.data(), weight.data(), value.size(), shrinks_[k],
                  model_.mean_rate[of.evening], value.data());
        for (const double v : value)
            sums_[k] += v;
    }
}

void TileSum::add_expected(const OfEvening& of) {
    if (of.own.effort.observable.values.empty()) return;
    const double west = tile_.box.south_west.easting, south = tile_.box.south_west.northing;
    const double step = tile_.block();
    const SplineRow flown_row(others_.flown, west, step, blocks);
    const SplineRow effort_row(others_.effort.smoothed, west, step, blocks);
    std::vector<float> flown(blocks), unplaced(blocks), smoothed(blocks), observable(blocks);
    std::vector<float> sums(shrinks_.size() * blocks, 0.0F);
    const auto mean = static_cast<float>(model_.mean_rate[of.evening]);
    for (std::size_t r = 0; r < blocks; ++r) {
        const double y = south + (static_cast<double>(r) + 0.5) * step;
        effort_row.sample(of.own.effort.observable, y, scratch_, observable.data());
        effort_row.sample(others_.effort.smoothed, y, scratch_, smoothed.data());
        flown_row.sample(others_.flown, y, scratch_, flown.data());
        if (model_.unplaced) {
            effort_row.sample(others_.effort.unplaced, y, scratch_, unplaced.data());
            activity::add(unplaced.data(), blocks, flown.data());
        }
        for (std::size_t k = 0; k < shrinks_.size(); ++k)
            add_rates(observable.data(), flown.data(), smoothed.data(), blocks,
                      static_cast<float>(shrinks_[k]), mean, &sums[k * blocks]);
    }
    const double per_metre = model_.even_ground.empty() ? 1.0 : model_.even_per_metre[of.evening];
    for (std::size_t k = 0; k < shrinks_.size(); ++k)
        for (std::size_t c = 0; c < blocks; ++c)
            sums_[k] -= step * step * per_metre * static_cast<double>(sums[k * blocks + c]);
}

}  // namespace roostward::activity
