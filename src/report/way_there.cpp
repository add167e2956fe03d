#include "roostward/report/way_there.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include "roostward/core/catalogue.hpp"
#include "sheets/sheet_parts.hpp"

namespace roostward::report {

namespace {

constexpr core::Metres station_reach{300.0}, beside{30.0};
constexpr core::Metres same_place{1.0};
/// Farther off an eighth of a turn leads astray by more than 20 m.
constexpr core::Metres near_by{50.0};

/// As people pace: to the metre near by, to 5 m and 10 m farther off.
std::string paced(core::Metres away) {
    const double metres = away.value(), step = metres < 30.0 ? 1.0 : metres < 100.0 ? 5.0 : 10.0;
    return fmt::format("{:.0f}", std::max(1.0, step * std::round(metres / step)));
}

std::string eighth_in_words(core::Degrees bearing) {
    const auto eighth = std::lround(core::normalised(bearing).value() / 45.0) % 8;
    return core::said(fmt::format("way.{}", eighth));
}

std::vector<core::PlanePoint> stems_of(const trees::Inventory& trees) {
    std::vector<core::PlanePoint> stems;
    stems.reserve(trees.rows.size());
    for (const auto& tree : trees.rows)
        stems.push_back(tree.stem);
    return stems;
}

std::vector<geo::Shape> shapes_of(const std::vector<NamedPlace>& places) {
    std::vector<geo::Shape> shapes;
    shapes.reserve(places.size());
    for (const auto& place : places)
        shapes.push_back({{place.position}, {}, {}});
    return shapes;
}

/// Where watches stood still.
std::vector<NamedPlace> watch_places_of(const survey::Survey& survey) {
    std::vector<NamedPlace> places;
    for (const auto& watch : survey.watches)
        if (watch.path.size() == 1) places.push_back({watch.path.front(), watch.name});
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

std::vector<Marked> marks_of(const trees::Surroundings& around) {
    std::vector<Marked> marks;
    if (around.water.given()) marks.push_back({"way.near_water", {}, geo::NearestShape(around.water.shapes)});
    if (around.roads.given()) marks.push_back({"way.near_road", {}, geo::NearestShape(around.roads.shapes)});
    for (const auto& avoided : around.avoid)
        marks.push_back({"way.near_avoided", avoided.reason, geo::NearestShape(avoided.shapes)});
    return marks;
}

}  // namespace

struct WaysThere::Indices {
    explicit Indices(Landmarks of)
        : known(std::move(of)),
          places(shapes_of(known.watch_places)),
          nearest_place(places),
          stems(stems_of(known.trees)),
          nearest_stem(stems),
          marks(marks_of(known.around)) {}

    Landmarks known;
    std::vector<geo::Shape> places;
    geo::NearestShape nearest_place;
    std::vector<core::PlanePoint> stems;
    geo::PointIndex nearest_stem;
    std::vector<Marked> marks;

    /// "{metres} m {way} of …", seen from the landmark; `more` fills in what the landmark is.
    [[nodiscard]] std::string from(std::string_view key, core::PlanePoint mark, core::PlanePoint place,
                                   const core::Filling& more = {"", ""}) const {
        const core::Degrees bearing = core::grid_bearing(mark, place) + known.meridian_convergence;
        const core::Metres away = core::distance(mark, place);
        return core::said(key, {{"metres", paced(away)},
                                {"way", away > near_by ? compass_words(bearing) : eighth_in_words(bearing)},
                                more});
    }

    [[nodiscard]] std::string start(core::PlanePoint place) const {
        const auto hit = nearest_place.nearest_within(place, station_reach);
        if (!hit) return from("way.from_middle", known.middle, place, {"site", known.site_name});
        const core::Filling station{"station", known.watch_places[hit->shape].name};
        if (hit->distance < same_place) return core::said("way.at_station", {station});
        return from("way.from_station", hit->where, place, station);
    }

    [[nodiscard]] std::string mark(core::PlanePoint place) const {
        std::string nearest;
        core::Metres reach = beside;
        for (const Marked& mark : marks) {
            const auto hit = mark.shapes.nearest_within(place, reach);
            if (!hit || hit->distance < same_place) continue;
            reach = hit->distance;
            nearest = from(mark.key, hit->where, place, {"what", mark.what});
        }
        return nearest;
    }

    [[nodiscard]] std::string next_tree(core::PlanePoint place) const {
        std::optional<std::size_t> next;
        for (const std::size_t other : nearest_stem.within(place, beside)) {
            if (core::distance(stems[other], place) < same_place) continue;
            if (!next ||
                core::squared_distance(stems[other], place) < core::squared_distance(stems[*next], place))
                next = other;
        }
        return next ? from("way.near_tree", stems[*next], place, {"tree", known.trees.rows[*next].id})
                    : std::string();
    }
};

WaysThere::WaysThere(Landmarks landmarks) : indices_(std::make_unique<Indices>(std::move(landmarks))) {}
WaysThere::WaysThere(const plan::Plan& plan)
    : WaysThere(Landmarks{plan.settings.site_name, plan.meridian_convergence, middle_of(plan), plan.trees,
                          plan.surroundings, watch_places_of(plan.survey)}) {}
WaysThere::~WaysThere() = default;
WaysThere::WaysThere(WaysThere&&) noexcept = default;
WaysThere& WaysThere::operator=(WaysThere&&) noexcept = default;

std::string WaysThere::to(std::size_t tree) const {
    return to(indices_->stems[tree]);
}

std::string WaysThere::to(core::PlanePoint place) const {
    std::string way = indices_->start(place);
    for (const std::string& more : {indices_->mark(place), indices_->next_tree(place)})
        if (!more.empty()) way += "; " + more;
    return way;
}

}  // namespace roostward::report
