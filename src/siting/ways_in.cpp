#include "roostward/siting/ways_in.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "roostward/canopy/round_view.hpp"
#include "roostward/core/by_square.hpp"

namespace roostward::siting {

namespace {

constexpr core::Degrees to_each_side{30.0};
constexpr core::Degrees all_round{180.0};
constexpr core::Degrees half_a_face{90.0};

/// Two for each ray, so that each ray stands in the middle of its own.
constexpr std::size_t sectors = 2 * canopy::rays;
constexpr double sector_width = 360.0 / static_cast<double>(sectors);

bool runs_over_the_stem(const LineOffset& line) {
    return line.offset <= core::Metres(0.0);
}

double tangent_of(core::Degrees angle) {
    return std::tan(angle.value() * std::numbers::pi / 180.0);
}

class Trunks {
 public:
    Trunks(const trees::Surroundings& around, const Hanging& hanging)
        : hanging_(hanging),
          path_(hanging.latitude),
          open_sky_(path_.over(flat)),
          roads_(around.roads.shapes) {
        for (std::size_t point = 0; point < compass_points; ++point)
            wedges_[point] = canopy::wedge_about(in_grid(bearing_of_point(point)), to_each_side);
    }

    /// What a horizon need not be told higher than, for each ray: no sun stands there.
    [[nodiscard]] canopy::Slopes above_the_sun() const {
        canopy::Slopes slopes{};
        for (std::size_t i = 0; i < sectors; ++i) {
            double& slope = slopes[ray_of(middle_of(i))];
            slope = std::max(slope, tangent_of(path_.highest_in(i, sectors)));
        }
        return slopes;
    }

    void face(Candidate& candidate, core::PlanePoint stem,
              const std::optional<canopy::RoundView>& view) const {
        const LineOffset* const line = line_beside(candidate);
        const auto sun = view ? over_horizon(*view) : std::nullopt;
        Outlook outlook;
        if (line != nullptr && !runs_over_the_stem(*line)) outlook.way_in = true_bearing(line->toward);
        outlook.road = toward_road(stem);
        for (std::size_t point = 0; point < compass_points; ++point) {
            const core::Degrees bearing = bearing_of_point(point);
            if (view) outlook.clear[point] = canopy::clear_in(*view, wedges_[point]);
            outlook.hot_sun[point] = (sun ? *sun : open_sky_).on_face(bearing).hot_afternoon;
        }
        candidate.facings = facings_of(hanging_.mounting, outlook);
        if (!view) return;
        candidate.open.assign(outlook.clear.begin(), outlook.clear.end());
        const core::Degrees first = candidate.facings->boxes.front();
        if (sun && horizon_known(*view, first)) candidate.sun = sun->on_face(first);
    }

 private:
    static constexpr std::array<core::Degrees, 1> flat{};

    /// What is not known counts as open.
    [[nodiscard]] std::optional<sun::SunOverHorizon> over_horizon(const canopy::RoundView& view) const {
        std::array<core::Degrees, sectors> horizon;
        for (std::size_t i = 0; i < sectors; ++i) {
            const auto elevation = static_cast<double>(view.horizon[ray_of(middle_of(i))]);
            horizon[i] = core::Degrees(std::isnan(elevation) ? 0.0 : elevation);
        }
        return path_.over(horizon);
    }
    [[nodiscard]] bool horizon_known(const canopy::RoundView& view, core::Degrees facing) const {
        for (std::size_t i = 0; i < sectors; ++i)
            if (core::turn_between(middle_of(i), facing) <= half_a_face &&
                std::isnan(view.horizon[ray_of(middle_of(i))]))
                return false;
        return true;
    }
    /// True, toward the nearest road in view.
    [[nodiscard]] std::optional<core::Degrees> toward_road(core::PlanePoint stem) const {
        const auto hit = roads_.nearest_within(stem, hanging_.road_in_view);
        if (!hit || hit->distance <= core::Metres(0.0)) return std::nullopt;
        return true_bearing(core::grid_bearing(stem, hit->where));
    }

    [[nodiscard]] core::Degrees true_bearing(core::Degrees in_grid) const {
        return core::normalised(in_grid + hanging_.meridian_convergence);
    }
    [[nodiscard]] core::Degrees in_grid(core::Degrees bearing) const {
        return core::normalised(bearing - hanging_.meridian_convergence);
    }
    [[nodiscard]] static core::Degrees middle_of(std::size_t sector) {
        return core::Degrees((static_cast<double>(sector) + 0.5) * sector_width);
    }
    [[nodiscard]] std::size_t ray_of(core::Degrees bearing) const {
        return static_cast<std::size_t>(std::lround(in_grid(bearing).value() / (2.0 * sector_width))) %
               canopy::rays;
    }

    const Hanging& hanging_;
    sun::SunPath path_;
    sun::SunOverHorizon open_sky_;
    geo::NearestShape roads_;
    std::array<canopy::Wedge, compass_points> wedges_;
};

/// What the canopy model says of the way in from the flight line beside the tree.
void look_at_way_in(Candidate& candidate, const canopy::Entrance& entrance, const canopy::RoundView& view,
                    const core::Raster& heights, core::Metres clear_approach) {
    const LineOffset* const line = line_beside(candidate);
    if (line == nullptr) return;
    const core::Degrees aside = runs_over_the_stem(*line) ? all_round : to_each_side;
    candidate.approach_clear = canopy::clear_in(view, canopy::wedge_about(line->toward, aside));
    candidate.drop_clear =
        canopy::drop_toward(heights, entrance, line->toward, aside, entrance.crown_radius + clear_approach);
}

/// The canopy model above sea, where the ground's height is told.
std::optional<core::Raster> above_sea(const trees::Surroundings& around) {
    if (!around.canopy_height || !around.ground_height) return std::nullopt;
    core::Raster sum = *around.canopy_height;
    for (std::size_t i = 0; i < sum.values.size(); ++i)
        sum.values[i] += around.ground_height->values[i];
    return sum;
}

/// The ground at a stem, as the model counts heights; empty where it is not known.
std::optional<core::Metres> ground_at(const trees::Surroundings& around, core::PlanePoint stem) {
    if (!around.ground_height) return core::Metres(0.0);
    const core::Raster& ground = *around.ground_height;
    const auto cell = ground.grid.cell_of(stem);
    if (!cell || ground.known[ground.grid.index(*cell)] == 0) return std::nullopt;
    return core::Metres(static_cast<double>(ground.values[ground.grid.index(*cell)]));
}

/// Neighbours together: they see the same canopy.
template <class Do>
void each_that_may_hold_a_box(const std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                              core::Threads threads, const Do& act) {
    std::vector<std::size_t> trees;
    std::vector<core::PlanePoint> stems;
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        if (!candidates[i].may_hold_a_box()) continue;
        trees.push_back(i);
        stems.push_back(inventory.rows[i].stem);
    }
    const std::vector<std::size_t> order = core::by_square(stems, canopy::horizon_looked).order;
    core::parallel_for(order.size(), 64, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t k = begin; k < end; ++k)
            act(trees[order[k]]);
    });
}

std::vector<core::PlanePoint> hanging_boxes(const trees::Surroundings& around) {
    std::vector<core::PlanePoint> places;
    for (const trees::HungBox& box : around.boxes.rows)
        if (box.hangs()) places.push_back(box.position);
    return places;
}

}  // namespace

void measure_distances(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                       const trees::Surroundings& around, const trees::Settings& settings,
                       core::Threads threads) {
    const geo::Shape all_boxes{hanging_boxes(around), {}, {}};
    const geo::NearestShape roads(around.roads.shapes), water(around.water.shapes),
        boxes(std::span(&all_boxes, all_boxes.points.empty() ? 0 : 1));
    std::vector<geo::NearestShape> avoid;
    for (const trees::AvoidLayer& layer : around.avoid)
        avoid.emplace_back(layer.shapes);
    const auto distance = [](const auto& hit) { return hit ? std::optional(hit->distance) : std::nullopt; };
    each_that_may_hold_a_box(candidates, inventory, threads, [&](std::size_t i) {
        const core::PlanePoint stem = inventory.rows[i].stem;
        candidates[i].road_distance = distance(roads.nearest(stem));
        candidates[i].water_distance = distance(water.nearest(stem));
        candidates[i].box_distance = distance(boxes.nearest(stem));
        for (const geo::NearestShape& layer : avoid) {
            auto from_crown = distance(layer.nearest(stem));
            if (from_crown)
                *from_crown =
                    std::max(core::Metres(0.0), *from_crown - trees::crown_of(inventory.rows[i], settings));
            candidates[i].avoid_distances.push_back(from_crown);
        }
    });
}

void measure_ways_in(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                     const trees::Surroundings& around, const Hanging& hanging, core::Threads threads) {
    const Trunks trunks(around, hanging);
    const canopy::Slopes steep_enough = trunks.above_the_sun();
    const std::optional<core::Raster> sum = above_sea(around);
    const core::Raster* const heights = sum ? &*sum : around.canopy_height ? &*around.canopy_height : nullptr;
    std::optional<canopy::BlockTops> tops;
    if (heights != nullptr) tops.emplace(*heights, threads);
    each_that_may_hold_a_box(candidates, inventory, threads, [&](std::size_t i) {
        const trees::Tree& tree = inventory.rows[i];
        const auto ground = ground_at(around, tree.stem);
        std::optional<canopy::RoundView> view;
        if (tops && ground) {
            const canopy::Entrance entrance{tree.stem, *ground + hanging.mounting.height,
                                            tree.crown_radius.value_or(hanging.unknown_crown_radius)};
            view = canopy::look_round(*tops, entrance, steep_enough);
            look_at_way_in(candidates[i], entrance, *view, *heights, hanging.mounting.clear_approach);
        }
        trunks.face(candidates[i], tree.stem, view);
    });
}

}  // namespace roostward::siting
