#include "evening_tiles.hpp"

#include <algorithm>

namespace roostward::activity {

namespace {

/// Cells a bandwidth: kernels come out to 1e-4 of their peak.
constexpr double cells_a_width = 2.5;
/// Cells a range, so that a surface on blocks of two cells follows the effort.
constexpr double cells_a_range = 4.0;

/// Where ground or a field of view ends, effort jumps: cells up to this, m.
constexpr double coarsest_at_edges = 2.5;

bool touch(const core::Box& a, const core::Box& b) {
    return a.south_west.easting <= b.north_east.easting && b.south_west.easting <= a.north_east.easting &&
           a.south_west.northing <= b.north_east.northing && b.south_west.northing <= a.north_east.northing;
}

core::Box around(core::PlanePoint a, core::PlanePoint b, double margin) {
    const core::Box box{{std::min(a.easting, b.easting), std::min(a.northing, b.northing)},
                        {std::max(a.easting, b.easting), std::max(a.northing, b.northing)}};
    return core::widened(box, core::Metres(margin));
}

class Splitter {
 public:
    Splitter(const EveningModel& model, double h) : model_(model), finest_(h / cells_a_width) {
        double shortest = cells_a_range * coarsest_at_edges;
        for (const Spot& spot : model.spots)
            shortest = &spot == model.spots.data() ? spot.range : std::min(shortest, spot.range);
        coarsest_ = shortest / cells_a_range;
        if (model.has_edges) coarsest_ = std::min(coarsest_, coarsest_at_edges);
        finest_ = std::min(finest_, coarsest_);
        for (const Blur& blur : model.blurs) {
            flown_reach_.push_back(spot_reach * blur.flown_width(h) + 3.0 * finest_);
            effort_reach_ = std::max(effort_reach_, spot_reach * blur.effort_width(h) + 3.0 * coarsest_);
        }
    }

    std::vector<Tile> run() {
        Tile root;
        std::vector<core::PlanePoint> corners;
        const auto hold = [&corners](const core::Box& box) {
            corners.push_back(box.south_west);
            corners.push_back(box.north_east);
        };
        for (std::uint32_t i = 0; i < model_.stretches.size(); ++i) {
            root.stretches.push_back(i);
            hold(around(model_.stretches[i].from, model_.stretches[i].to, 0.0));
        }
        for (std::uint32_t i = 0; i < model_.spots.size(); ++i) {
            root.spots.push_back(i);
            hold(watched_by(model_.spots[i]));
        }
        for (const auto& polygon : model_.even_ground)
            hold(held_by(polygon));
        const core::Box all = *geo::box_of(corners);
        const double extent = std::max(all.north_east.easting - all.south_west.easting,
                                       all.north_east.northing - all.south_west.northing);
        double side = finest_ * static_cast<double>(tile_side);
        while (side <= extent)
            side *= 2.0;
        root.box = {all.south_west, {all.south_west.easting + side, all.south_west.northing + side}};
        split(root);
        return std::move(tiles_);
    }

 private:
    static core::Box watched_by(const Spot& spot) {
        return around(spot.place, spot.place, spot_reach * spot.range);
    }

    /// A spline surface follows an edge of the ground within a few cells.
    static core::Box held_by(const geo::Polygon& ground) {
        constexpr double cells = 8.0;
        return core::widened(*geo::box_of(ground.outer), core::Metres(cells * coarsest_at_edges));
    }

    [[nodiscard]] bool is_needed(const Tile& tile) const {
        const auto& m = model_;
        return std::ranges::any_of(m.even_ground,
                                   [&](const auto& g) { return touch(held_by(g), tile.box); }) ||
               std::ranges::any_of(tile.spots,
                                   [&](auto i) { return touch(watched_by(m.spots[i]), tile.box); }) ||
               std::ranges::any_of(tile.stretches, [&](auto i) {
                   return touch(around(m.stretches[i].from, m.stretches[i].to, 0.0), tile.box);
               });
    }

    [[nodiscard]] Tile part_of(const Tile& whole, const core::Box& box) const {
        Tile part{box, {}, {}};
        for (const std::uint32_t i : whole.stretches) {
            const Stretch& s = model_.stretches[i];
            if (touch(around(s.from, s.to, flown_reach_[s.blur]), box)) part.stretches.push_back(i);
        }
        const core::Box wide = core::widened(box, core::Metres(effort_reach_));
        for (const std::uint32_t i : whole.spots)
            if (touch(watched_by(model_.spots[i]), wide)) part.spots.push_back(i);
        return part;
    }

    void split(const Tile& tile) {
        constexpr double rounding = 1.0 + 1e-9;
        if (!is_needed(tile)) return;
        const double enough = tile.stretches.empty() ? coarsest_ : finest_;
        if (tile.cell() <= enough * rounding) {
            tiles_.push_back(tile);
            return;
        }
        const core::PlanePoint low = tile.box.south_west, high = tile.box.north_east;
        const core::PlanePoint middle{0.5 * (low.easting + high.easting),
                                      0.5 * (low.northing + high.northing)};
        for (const core::Box& box : {core::Box{low, middle},
                                     {{middle.easting, low.northing}, {high.easting, middle.northing}},
                                     {{low.easting, middle.northing}, {middle.easting, high.northing}},
                                     {middle, high}})
            split(part_of(tile, box));
    }

    const EveningModel& model_;
    double finest_, coarsest_ = 0.0;
    std::vector<double> flown_reach_;
    double effort_reach_ = 0.0;
    std::vector<Tile> tiles_;
};

}  // namespace

std::vector<Tile> tiles_of(const EveningModel& model, double h) {
    return Splitter(model, h).run();
}

}  // namespace roostward::activity
