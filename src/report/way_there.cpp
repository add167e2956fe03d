#include "roostward/report/way_there.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "roostward/core/catalogue.hpp"

namespace roostward::report {

namespace {

constexpr core::Metres station_reach{300.0}, beside{30.0};
constexpr core::Metres same_place{1.0};

/// As people pace: to the metre near by, to 5 m and 10 m farther off.
std::string paced(core::Metres away) {
    const double metres = away.value(), step = metres < 30.0 ? 1.0 : metres < 100.0 ? 5.0 : 10.0;
    return fmt::format("{:.0f}", std::max(1.0, step * std::round(metres / step)));
}

std::vector<core::PlanePoint> stems_of(const plan::Plan& plan) {
    std::vector<core::PlanePoint> stems;
    stems.reserve(plan.trees.rows.size());
    for (const auto& tree : plan.trees.rows)
        stems.push_back(tree.stem);
    return stems;
}

/// Watches that stood still.
std::vector<const survey::Watch*> stations_of(const plan::Plan& plan) {
    std::vector<const survey::Watch*> stations;
    for (const auto& watch : plan.survey.watches)
        if (watch.path.size() == 1) stations.push_back(&watch);
    return stations;
}

std::vector<geo::Shape> places_of(const std::vector<const survey::Watch*>& stations) {
    std::vector<geo::Shape> places;
    places.reserve(stations.size());
    for (const auto* station : stations)
        places.push_back({station->path, {}, {}});
    return places;
}

core::PlanePoint middle_of(const plan::Plan& plan) {
    if (!plan.surroundings.allowed_area.empty()) return geo::middle_of(plan.surroundings.allowed_area);
    const core::Box box = plan.surfaces.flight_density.grid.box();
    return {0.5 * (box.south_west.easting + box.north_east.easting),
            0.5 * (box.south_west.northing + box.north_east.northing)};
}

/// Something that is told by what it is.
struct Marked {
    std::string key;   ///< of the catalogue
    std::string what;  ///< the reason to keep away; empty for water and roads
    geo::NearestShape shapes;
};

std::vector<Marked> marks_of(const plan::Plan& plan) {
    const trees::Surroundings& around = plan.surroundings;
    std::vector<Marked> marks;
    if (around.water.given()) marks.push_back({"way.near_water", {}, geo::NearestShape(around.water.shapes)});
    if (around.roads.given()) marks.push_back({"way.near_road", {}, geo::NearestShape(around.roads.shapes)});
    for (const auto& avoided : around.avoid)
        marks.push_back({"way.near_avoided", avoided.reason, geo::NearestShape(avoided.shapes)});
    return marks;
}

}  // namespace

struct WaysThere::Landmarks {
    explicit Landmarks(const plan::Plan& of)
        : plan(of),
          stations(stations_of(of)),
          places(places_of(stations)),
          nearest_place(places),
          stems(stems_of(of)),
          nearest_stem(stems),
          middle(middle_of(of)),
          marks(marks_of(of)) {}

    const plan::Plan& plan;
    std::vector<const survey::Watch*> stations;
    std::vector<geo::Shape> places;
    geo::NearestShape nearest_place;
    std::vector<core::PlanePoint> stems;
    geo::PointIndex nearest_stem;
    core::PlanePoint middle;
    std::vector<Marked> marks;

    /// "{metres} m {way} of …", seen from the landmark; `more` fills in what the landmark is.
    [[nodiscard]] std::string from(std::string_view key, core::PlanePoint mark, core::PlanePoint stem,
                                   const core::Filling& more = {"", ""}) const {
        const core::Degrees bearing = core::grid_bearing(mark, stem) + plan.meridian_convergence;
        const auto eighth = std::lround(core::normalised(bearing).value() / 45.0) % 8;
        return core::said(key, {{"metres", paced(core::distance(mark, stem))},
                                {"way", core::said(fmt::format("way.{}", eighth))},
                                more});
    }

    [[nodiscard]] std::string start(core::PlanePoint stem) const {
        const auto hit = nearest_place.nearest_within(stem, station_reach);
        if (!hit) return from("way.from_middle", middle, stem, {"site", plan.settings.site_name});
        const core::Filling station{"station", stations[hit->shape]->name};
        if (hit->distance < same_place) return core::said("way.at_station", {station});
        return from("way.from_station", hit->where, stem, station);
    }

    [[nodiscard]] std::string mark(core::PlanePoint stem) const {
        std::string nearest;
        core::Metres reach = beside;
        for (const Marked& mark : marks) {
            const auto hit = mark.shapes.nearest_within(stem, reach);
            if (!hit || hit->distance < same_place) continue;
            reach = hit->distance;
            nearest = from(mark.key, hit->where, stem, {"what", mark.what});
        }
        return nearest;
    }

    [[nodiscard]] std::string next_tree(std::size_t tree) const {
        const core::PlanePoint stem = stems[tree];
        std::optional<std::size_t> next;
        for (const std::size_t other : nearest_stem.within(stem, beside)) {
            if (core::distance(stems[other], stem) < same_place) continue;
            if (!next ||
                core::squared_distance(stems[other], stem) < core::squared_distance(stems[*next], stem))
                next = other;
        }
        return next ? from("way.near_tree", stems[*next], stem, {"tree", plan.trees.rows[*next].id})
                    : std::string();
    }
};

WaysThere::WaysThere(const plan::Plan& plan) : landmarks_(std::make_unique<Landmarks>(plan)) {}
WaysThere::~WaysThere() = default;
WaysThere::WaysThere(WaysThere&&) noexcept = default;
WaysThere& WaysThere::operator=(WaysThere&&) noexcept = default;

std::string WaysThere::to(std::size_t tree) const {
    const core::PlanePoint stem = landmarks_->stems[tree];
    std::string way = landmarks_->start(stem);
    for (const std::string& more : {landmarks_->mark(stem), landmarks_->next_tree(tree)})
        if (!more.empty()) way += "; " + more;
    return way;
}

}  // namespace roostward::report
