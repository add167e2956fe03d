#include "roostward/evenings/ground.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>

#include "roostward/core/by_square.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"

namespace roostward::evenings {

namespace {

constexpr double finest_step = 5.0;  // metres between places
constexpr double coarser = 1.2;

geo::Shape shape_of(const std::vector<geo::Polygon>& polygons) {
    return {{}, {}, polygons};
}

/// Why nobody can stand at a place: the key of its words; empty where people can.
class Standing {
 public:
    explicit Standing(const Ground& ground)
        : anywhere_(ground.allowed_area.empty()),
          allowed_(one(shape_of(ground.allowed_area))),
          paths_(one({{}, ground.paths, {}})),
          keep_out_(one(shape_of(ground.keep_out))),
          roads_(ground.roads.shapes),
          water_(ground.water.shapes) {}

    [[nodiscard]] std::string_view fault(core::PlanePoint at) const {
        if (water_.nearest_within(at, off_water)) return "finding.station.water";
        if (roads_.nearest_within(at, off_road)) return "finding.station.road";
        if (keep_out_.nearest_within(at, geo::edge_tolerance)) return "finding.station.keep_out";
        if (anywhere_ || allowed_.nearest_within(at, geo::edge_tolerance)) return {};
        return paths_.nearest_within(at, beside_path) ? std::string_view{} : "finding.station.outside";
    }

 private:
    static geo::NearestShape one(const geo::Shape& shape) {
        std::vector<geo::Shape> shapes;
        if (!shape.empty()) shapes.push_back(shape);
        return geo::NearestShape(shapes);
    }

    bool anywhere_;
    geo::NearestShape allowed_, paths_, keep_out_, roads_, water_;
};

Places from_stations(const core::Records<survey::Station>& stations, const Standing& standing) {
    Places found;
    for (const survey::Station& station : stations.rows) {
        const std::string_view fault = standing.fault(station.position);
        if (fault.empty()) {
            found.places.push_back({station.position, station.name});
            continue;
        }
        found.findings.push_back({core::Severity::doubtful, stations.place(station.row),
                                  "nobody can stand there", station.name, core::said(fault)});
    }
    return found;
}

std::vector<core::PlanePoint> along(const std::vector<geo::Line>& paths, double step) {
    std::vector<core::PlanePoint> points;
    for (const geo::Line& path : paths) {
        double next = 0.0;  // from the start of the stretch
        for (std::size_t i = 1; i < path.size(); ++i) {
            const double length = core::distance(path[i - 1], path[i]).value();
            const core::Degrees bearing = core::grid_bearing(path[i - 1], path[i]);
            for (; next <= length; next += step)
                points.push_back(core::moved(path[i - 1], bearing, core::Metres(next)));
            next -= length;
        }
    }
    return points;
}

std::vector<core::PlanePoint> grid_over(std::span<const core::PlanePoint> stems, core::Metres reach,
                                        double step) {
    std::vector<core::PlanePoint> points;
    const core::Grid grid =
        core::grid_over(core::widened(geo::box_of(stems).value(), reach), core::Metres(step));
    for (std::size_t row = 0; row < grid.rows; ++row)
        for (std::size_t column = 0; column < grid.columns; ++column)
            points.push_back(grid.centre({row, column}));
    return points;
}

/// One a square of side `step`: the nearest to its middle.
std::vector<core::PlanePoint> thinned(const std::vector<core::PlanePoint>& points, double step) {
    std::map<std::pair<double, double>, std::pair<double, core::PlanePoint>> nearest;
    for (const core::PlanePoint point : points) {
        const double column = std::floor(point.easting / step), row = std::floor(point.northing / step);
        const core::PlanePoint middle{(column + 0.5) * step, (row + 0.5) * step};
        const std::pair here{core::squared_distance(point, middle), point};
        const auto [known, fresh] = nearest.try_emplace({column, row}, here);
        if (!fresh) known->second = std::min(known->second, here);
    }
    std::vector<core::PlanePoint> kept;
    kept.reserve(nearest.size());
    for (const auto& [square, found] : nearest)
        kept.push_back(found.second);
    return kept;
}

/// One tree a square stands for all: a view that reaches so far hardly tells them apart.
std::vector<core::PlanePoint> stands_of(std::span<const core::PlanePoint> stems, core::Metres reach) {
    const core::Squares squares = core::by_square(stems, reach / 4.0);
    std::vector<core::PlanePoint> stands;
    for (std::size_t i = 0; i < squares.size(); ++i)
        stands.push_back(stems[squares.members(i).front()]);
    return stands;
}

/// Squares of a grid would be few enough for the places to look at one by one.
double first_step(std::span<const core::PlanePoint> stems, core::Metres reach, std::size_t most) {
    const core::Box box = core::widened(geo::box_of(stems).value(), reach);
    const double area = (box.north_east.easting - box.south_west.easting) *
                        (box.north_east.northing - box.south_west.northing);
    constexpr double looked_at_a_place = 20.0;
    return std::max(finest_step, std::sqrt(area / static_cast<double>(most) / looked_at_a_place));
}

[[noreturn]] void nowhere(const Ground& ground, const Places& found) {
    const bool stations = ground.stations.given();
    std::string_view key = stations               ? "error.no_station_to_stand"
                           : ground.paths.empty() ? "error.no_ground_to_stand"
                                                  : "error.no_path_to_stand";
    if (stations && found.findings.empty()) key = "error.no_station_near_trees";
    throw core::Error(core::Fault::inputs, {stations ? ground.stations.file : std::string(), {}, {}, {}},
                      core::said(key));
}

}  // namespace

Places candidate_places(const Ground& ground, std::span<const core::PlanePoint> stems, core::Metres reach,
                        std::size_t most) {
    if (stems.empty()) throw core::Error(core::Fault::inputs, {}, core::said("error.no_tree_to_watch"));
    const Standing standing(ground);
    const geo::PointIndex trees(stands_of(stems, reach));
    const auto sees_none = [&](core::PlanePoint at) { return trees.within(at, reach).empty(); };

    Places found;
    double step = first_step(stems, reach, most);
    if (ground.stations.given()) {
        found = from_stations(ground.stations, standing);
        std::erase_if(found.places, [&](const Place& place) { return sees_none(place.position); });
    } else {
        std::vector<core::PlanePoint> points =
            ground.paths.empty() ? grid_over(stems, reach, step) : along(ground.paths, step);
        std::erase_if(points,
                      [&](core::PlanePoint at) { return sees_none(at) || !standing.fault(at).empty(); });
        std::vector<core::PlanePoint> kept = points;
        for (; kept.size() > most; step *= coarser)
            kept = thinned(points, step);
        for (const core::PlanePoint point : kept)
            found.places.push_back({point, {}});
    }
    if (found.places.empty()) nowhere(ground, found);
    std::ranges::sort(found.places, [](const Place& a, const Place& b) {
        return std::tie(a.position, a.name) < std::tie(b.position, b.name);
    });
    return found;
}

}  // namespace roostward::evenings
