#include "canopy_doubts.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

namespace roostward::io {

namespace {

// No canopy has half its cells over 60 m; open ground between trees is 0 m high, and crowns have edges.
constexpr float tallest_median_m = 60.0F;
constexpr float lowest_fifth_m = 5.0F;
constexpr double smooth_rise = 0.3;  ///< metres of height per metre of ground, from one cell to the next

struct Heights {
    float fifth = 0.0F;  ///< 5th percentile
    float median = 0.0F;
};

Heights heights_of(const core::Raster& raster) {
    constexpr std::size_t enough = 100'000;
    const std::size_t step = std::max<std::size_t>(1, raster.values.size() / enough);
    std::vector<float> sample;
    for (std::size_t i = 0; i < raster.values.size(); i += step) {
        if (raster.known[i] != 0) sample.push_back(raster.values[i]);
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
        if (i % raster.grid.columns == 0 || raster.known[i] == 0 || raster.known[i - 1] == 0) continue;
        sum += std::abs(static_cast<double>(raster.values[i]) - static_cast<double>(raster.values[i - 1]));
        ++count;
    }
    return count == 0 ? 0.0 : sum / static_cast<double>(count);
}

}  // namespace

void tell_canopy_doubts(const core::Raster& raster, LayerReport& report) {
    if (std::none_of(raster.known.begin(), raster.known.end(), [](std::uint8_t k) { return k != 0; })) {
        report.doubt_layer("canopy without heights", "",
                           "no cell around the site has a height: give the raster of this site");
        return;
    }
    const Heights heights = heights_of(raster);
    const bool too_tall = heights.median > tallest_median_m;
    const bool smooth =
        heights.fifth > lowest_fifth_m && mean_step(raster) < smooth_rise * raster.grid.cell.value();
    if (too_tall || smooth) {
        report.doubt_layer("terrain given as canopy", fmt::format("median {:.1f} m", heights.median),
                           "these look like heights above sea, not above ground: give surface minus terrain");
    }
}

}  // namespace roostward::io
