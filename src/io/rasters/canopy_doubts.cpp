#include "rasters/canopy_doubts.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "rasters/raster_reading.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::io {

namespace {

// No canopy has half its cells over 60 m; open ground between trees is 0 m high, and crowns have edges.
constexpr float tallest_median_m = 60.0F;
constexpr float lowest_fifth_m = 5.0F;
constexpr double smooth_rise = 0.3;  ///< metres of height per metre of ground, from one cell to the next
constexpr float lowest_m = -2.0F, highest_m = 150.0F;  // common practice, no source
constexpr float told_m = 0.01F;  ///< less below the ground is rounding, and not worth telling
constexpr float lowest_land_m = -500.0F, highest_land_m = 9000.0F;  ///< beyond: no-data that was not told

bool is_land(const core::Raster& raster, std::size_t cell) {
    return raster.known[cell] != 0 && raster.values[cell] >= lowest_land_m &&
           raster.values[cell] <= highest_land_m;
}

struct Spread {
    float fifth = 0.0F;  ///< 5th percentile
    float median = 0.0F;
};

Spread spread_of(const core::Raster& raster) {
    constexpr std::size_t enough = 100'000;
    const std::size_t step = std::max<std::size_t>(1, raster.values.size() / enough);
    std::vector<float> sample;
    for (std::size_t i = 0; i < raster.values.size(); i += step) {
        if (is_land(raster, i)) sample.push_back(raster.values[i]);
    }
    if (sample.empty()) return {};
    const auto at = [&](double share) {
        const auto place = static_cast<std::ptrdiff_t>(share * static_cast<double>(sample.size() - 1));
        std::nth_element(sample.begin(), sample.begin() + place, sample.end());
        return sample[static_cast<std::size_t>(place)];
    };
    return {at(0.05), at(0.5)};
}

/// Mean step between neighbours in a row.
double mean_step(const core::Raster& raster) {
    double sum = 0.0;
    std::size_t count = 0;
    for (std::size_t i = 1; i < raster.values.size(); ++i) {
        if (i % raster.grid.columns == 0 || !is_land(raster, i) || !is_land(raster, i - 1)) continue;
        sum += std::abs(static_cast<double>(raster.values[i]) - static_cast<double>(raster.values[i - 1]));
        ++count;
    }
    return count == 0 ? 0.0 : sum / static_cast<double>(count);
}

/// Cells whose height is not as canopy has it.
struct Unlikely {
    std::size_t below = 0;       ///< ground itself, as it is measured
    std::size_t impossible = 0;  ///< no-data that was not told, or another kind of height
    std::optional<float> first;  ///< of the impossible ones

    void add(const Unlikely& next) {
        below += next.below;
        impossible += next.impossible;
        if (!first) first = next.first;
    }
};

Unlikely keep_likely(core::Raster& raster, std::size_t begin, std::size_t end) {
    Unlikely found;
    for (std::size_t i = begin; i < end; ++i) {
        float& height = raster.values[i];
        if (raster.known[i] != 0 && (height < lowest_m || height > highest_m)) {
            ++found.impossible;
            if (!found.first) found.first = height;
            raster.known[i] = 0;
        }
        if (raster.known[i] != 0 && height < -told_m) ++found.below;
        if (raster.known[i] == 0 || height < 0.0F) height = 0.0F;
    }
    return found;
}

std::string told_count(std::size_t cells) {
    return core::said(cells == 1 ? "value.one_cell" : "value.cells", {{"count", cells}});
}

}  // namespace

void tell_canopy_doubts(const core::Raster& raster, HeightsFrom from, LayerReport& report) {
    if (std::none_of(raster.known.begin(), raster.known.end(), [](std::uint8_t k) { return k != 0; })) {
        report.doubt_layer("canopy without heights", "", core::said("finding.canopy_without_heights"));
        return;
    }
    const Spread heights = spread_of(raster);
    const bool too_tall = heights.median > tallest_median_m;
    const bool too_low = from == HeightsFrom::surface_less_terrain && heights.fifth < lowest_m;
    const bool smooth =
        heights.fifth > lowest_fifth_m && mean_step(raster) < smooth_rise * raster.grid.cell.value();
    if (!too_tall && !too_low && !smooth) return;
    const std::string median = core::said("value.median", {{"median", heights.median}});
    if (from == HeightsFrom::canopy) {
        report.doubt_layer("terrain given as canopy", median, core::said("finding.terrain_as_canopy"));
    } else {
        report.doubt_layer("surface and terrain do not match", median,
                           core::said("finding.surface_not_of_terrain"));
    }
}

void keep_likely_heights(core::Raster& raster, HeightsFrom from, core::Threads threads, LayerReport& report) {
    std::vector<Unlikely> pieces(raster.values.size() / cells_at_a_time + 1);
    core::parallel_for(raster.values.size(), cells_at_a_time, threads,
                       [&](std::size_t begin, std::size_t end) {
                           pieces[begin / cells_at_a_time] = keep_likely(raster, begin, end);
                       });
    Unlikely all;
    for (const Unlikely& piece : pieces)
        all.add(piece);
    if (all.below > 0) {
        report.note_layer("canopy below the ground", told_count(all.below),
                          core::said("finding.canopy_below_ground"));
    }
    if (all.first) {
        report.doubt_layer("impossible canopy height", told_count(all.impossible),
                           core::said(from == HeightsFrom::canopy ? "finding.impossible_canopy"
                                                                  : "finding.impossible_surface",
                                      {{"metres", *all.first}}));
    }
}

}  // namespace roostward::io
