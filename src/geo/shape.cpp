#include "roostward/geo/shape.hpp"

#include "roostward/geo/edges.hpp"

#include <algorithm>
#include <cmath>

namespace roostward::geo {

namespace {

/// Shoelace formula about the first point, so that large coordinates lose no digits.
double ring_area(const Line& ring) {
    double twice = 0.0;
    for (std::size_t i = 1; i + 1 < ring.size(); ++i) {
        const double ax = ring[i].easting - ring[0].easting;
        const double ay = ring[i].northing - ring[0].northing;
        const double bx = ring[i + 1].easting - ring[0].easting;
        const double by = ring[i + 1].northing - ring[0].northing;
        twice += ax * by - bx * ay;
    }
    return std::abs(twice) / 2.0;
}

enum class Side { outside, inside, edge };

Side side_of(const Line& ring, core::PlanePoint point) {
    bool inside = false;
    for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
        if (core::distance(closest_on(ring[i], ring[i + 1], point), point) <= edge_tolerance)
            return Side::edge;
        if (crossed_by_ray(ring[i], ring[i + 1], point)) inside = !inside;
    }
    return inside ? Side::inside : Side::outside;
}

bool covers(const Polygon& polygon, core::PlanePoint point) {
    const Side outer = side_of(polygon.outer, point);
    if (outer != Side::inside) return outer == Side::edge;
    return std::none_of(polygon.holes.begin(), polygon.holes.end(),
                        [point](const Line& hole) { return side_of(hole, point) == Side::inside; });
}

}  // namespace

core::Metres length_of(const Line& line) {
    core::Metres length;
    for (std::size_t i = 0; i + 1 < line.size(); ++i)
        length = length + core::distance(line[i], line[i + 1]);
    return length;
}

core::SquareMetres area_of(const std::vector<Polygon>& polygons) {
    double area = 0.0;
    for (const Polygon& polygon : polygons) {
        area += ring_area(polygon.outer);
        for (const Line& hole : polygon.holes)
            area -= ring_area(hole);
    }
    return core::SquareMetres(area);
}

core::PlanePoint middle_of(const std::vector<Polygon>& polygons) {
    const core::PlanePoint from = polygons.front().outer.front();
    double twice_area = 0.0, x = 0.0, y = 0.0;
    for (const Polygon& polygon : polygons) {
        double twice = 0.0, ring_x = 0.0, ring_y = 0.0;
        for (std::size_t i = 1; i < polygon.outer.size(); ++i) {
            const core::PlanePoint a{polygon.outer[i - 1].easting - from.easting,
                                     polygon.outer[i - 1].northing - from.northing};
            const core::PlanePoint b{polygon.outer[i].easting - from.easting,
                                     polygon.outer[i].northing - from.northing};
            const double cross = a.easting * b.northing - b.easting * a.northing;
            twice += cross;
            ring_x += cross * (a.easting + b.easting);
            ring_y += cross * (a.northing + b.northing);
        }
        const double sign = twice < 0.0 ? -1.0 : 1.0;
        twice_area += sign * twice;
        x += sign * ring_x;
        y += sign * ring_y;
    }
    return {from.easting + x / (3.0 * twice_area), from.northing + y / (3.0 * twice_area)};
}

bool covers(const std::vector<Polygon>& ground, core::PlanePoint point) {
    return std::any_of(ground.begin(), ground.end(),
                       [point](const Polygon& polygon) { return covers(polygon, point); });
}

std::optional<core::Box> box_of(std::span<const core::PlanePoint> points) {
    if (points.empty()) return std::nullopt;
    core::Box box{points.front(), points.front()};
    for (const core::PlanePoint& point : points) {
        box.south_west.easting = std::min(box.south_west.easting, point.easting);
        box.south_west.northing = std::min(box.south_west.northing, point.northing);
        box.north_east.easting = std::max(box.north_east.easting, point.easting);
        box.north_east.northing = std::max(box.north_east.northing, point.northing);
    }
    return box;
}

}  // namespace roostward::geo
