#include "tile_effort.hpp"

#include <algorithm>
#include <numbers>

#include "roostward/activity/kernel.hpp"
#include "roostward/core/vector_clones.hpp"

namespace roostward::activity {

namespace {

/// A cell of effort spans at most this many blocks a side, and half of the shortest range.
constexpr std::size_t most_blocks = 16;
constexpr double cells_a_range = 2.0;

ROOSTWARD_VECTOR_CLONES
void add_scaled(float* sum, const float* values, float weight, std::size_t n) {
    for (std::size_t i = 0; i < n; ++i)
        sum[i] += weight * values[i];
}

/// The half of the plane to the left of a ray's line: what share of a cell lies in it.
class Side {
 public:
    Side(double angle, double cell, double sign)
        : x_(-sign * std::sin(angle)),
          y_(sign * std::cos(angle)),
          width_(cell * (std::fabs(x_) + std::fabs(y_))) {}
    [[nodiscard]] double share(double dx, double dy) const {
        return std::clamp(0.5 + (dx * x_ + dy * y_) / width_, 0.0, 1.0);
    }

 private:
    double x_, y_, width_;
};

/// A sector's share of a cell.
class SectorShare {
 public:
    SectorShare(const Spot& spot, double cell)
        : first_(spot.middle - spot.half, cell, 1.0),
          last_(spot.middle + spot.half, cell, -1.0),
          reflex_(spot.half > 0.5 * std::numbers::pi) {}
    [[nodiscard]] double operator()(double dx, double dy) const {
        const double a = first_.share(dx, dy), b = last_.share(dx, dy);
        return reflex_ ? std::max(a, b) : std::min(a, b);
    }

 private:
    Side first_, last_;
    bool reflex_;
};

/// Cells of one row or column from `place` on, as seen from it: distances, and factors of the half-normal.
struct Line {
    std::vector<double> away;
    std::vector<float> factor;
    Line(double edge, double cell, std::size_t cells, double place, double range) {
        for (std::size_t i = 0; i < cells; ++i) {
            away.push_back(edge + (static_cast<double>(i) + 0.5) * cell - place);
            const double z = away.back() / range;
            factor.push_back(static_cast<float>(exp_of(-0.5 * z * z)));
        }
    }
};

/// Where the edges of the ground cross a line of constant northing, ascending.
void crossings(const std::vector<geo::Polygon>& ground, double northing, std::vector<double>& at) {
    at.clear();
    const auto cross = [&](const geo::Line& ring) {
        for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
            const core::PlanePoint a = ring[i], b = ring[i + 1];
            if ((a.northing <= northing) == (b.northing <= northing)) continue;
            const double t = (northing - a.northing) / (b.northing - a.northing);
            at.push_back(a.easting + t * (b.easting - a.easting));
        }
    };
    for (const auto& polygon : ground) {
        cross(polygon.outer);
        for (const auto& hole : polygon.holes)
            cross(hole);
    }
    std::ranges::sort(at);
}

}  // namespace

EffortLayer::EffortLayer(const EveningModel& model, double h, const Tile& tile) : model_(model) {
    double largest = tile.block();
    double shortest = largest;
    for (const std::uint32_t i : tile.spots)
        shortest = i == tile.spots.front() ? model.spots[i].range : std::min(shortest, model.spots[i].range);
    std::size_t blocks = 1;
    while (!model.has_edges && 2 * blocks <= most_blocks && 2.0 * largest * cells_a_range <= shortest) {
        blocks *= 2;
        largest *= 2.0;
    }
    const double cell = largest;
    const double averaged = model.even_ground.empty() ? 0.0 : 1.0 / 12.0;  // variance of a cell of ground
    std::size_t margin = 2;
    for (const Blur& blur : model.blurs) {
        const double width = blur.effort_width(h) / cell;
        smoothing_.push_back(taps_of(width * width - spline_variance - averaged, 1));
        margin = std::max(margin, smoothing_.back().size() - 1);
    }
    sharpening_ = taps_of(-spline_variance, 1);
    const auto lay = [&](TileCells& cells, std::size_t beyond) {
        const double wide = static_cast<double>(beyond) * cell;
        cells.reset(tile.box.south_west.easting - wide, tile.box.south_west.northing - wide, cell,
                    tile_side / (2 * blocks) + 2 * beyond);
    };
    lay(surface_, spline_margin);
    for (TileCells* cells : {&hours_, &observable_, &unplaced_})
        lay(*cells, spline_margin + margin);
}

TileEffort EffortLayer::none() const {
    return {surface_, surface_, model_.unplaced ? surface_ : TileCells{}};
}

void EffortLayer::smooth(TileEffort& effort) {
    for (std::size_t b = 0; b < model_.blurs.size(); ++b) {
        const auto share = static_cast<float>(model_.blurs[b].share);
        add_filtered(hours_, smoothing_[b], share, effort.smoothed, scratch_);
        if (model_.unplaced) add_filtered(unplaced_, smoothing_[b], share, effort.unplaced, scratch_);
    }
    add_filtered(observable_, sharpening_, 1.0F, effort.observable, scratch_);
}

TileEffort EffortLayer::of_spots(std::span<const std::uint32_t> spots) {
    for (TileCells* cells : {&hours_, &observable_, &unplaced_})
        std::ranges::fill(cells->values, 0.0F);
    for (const std::uint32_t i : spots) {
        const Spot& spot = model_.spots[i];
        const Line across(hours_.west, hours_.cell, hours_.side, spot.place.easting, spot.range);
        const Line up(hours_.south, hours_.cell, hours_.side, spot.place.northing, spot.range);
        const SectorShare sector(spot, hours_.cell);
        std::vector<float> seen = across.factor;
        for (std::size_t r = 0; r < hours_.side; ++r) {
            for (std::size_t c = 0; spot.has_edges() && c < hours_.side; ++c)
                seen[c] = across.factor[c] * static_cast<float>(sector(across.away[c], up.away[r]));
            const double hours = spot.hours * static_cast<double>(up.factor[r]);
            const auto add = [&](TileCells& to, double weight) {
                add_scaled(to.row(r), seen.data(), static_cast<float>(weight), to.side);
            };
            add(hours_, hours);
            add(observable_, hours * spot.per_metre);
            if (model_.unplaced) add(unplaced_, hours * spot.unplaced_rate);
        }
    }
    TileEffort effort = none();
    smooth(effort);
    return effort;
}

TileEffort EffortLayer::of_even_ground() {
    constexpr std::size_t lines = 16;  // a cell
    std::ranges::fill(hours_.values, 0.0F);
    const auto cells = static_cast<double>(hours_.side);
    std::vector<double> at;
    for (std::size_t line = 0; line < lines * hours_.side; ++line) {
        const double up = (static_cast<double>(line) + 0.5) / static_cast<double>(lines);
        crossings(model_.even_ground, hours_.south + up * hours_.cell, at);
        float* row = hours_.row(line / lines);
        for (std::size_t i = 0; i + 1 < at.size(); i += 2) {
            const double begin = std::clamp((at[i] - hours_.west) / hours_.cell, 0.0, cells);
            const double end = std::clamp((at[i + 1] - hours_.west) / hours_.cell, 0.0, cells);
            for (auto c = static_cast<std::size_t>(begin); static_cast<double>(c) < end; ++c) {
                const double left = std::max(begin, static_cast<double>(c));
                const double right = std::min(end, static_cast<double>(c + 1));
                row[c] += static_cast<float>((right - left) / static_cast<double>(lines));
            }
        }
    }
    observable_.values = hours_.values;
    TileEffort effort = none();
    smooth(effort);
    return effort;
}

}  // namespace roostward::activity
