#include <algorithm>
#include <span>

#include "roostward/geo/shape.hpp"

namespace roostward::geo {

namespace {

/// Twice the area of a triangle; positive where it turns left.
double turn(core::PlanePoint a, core::PlanePoint b, core::PlanePoint c) {
    return (b.easting - a.easting) * (c.northing - a.northing) -
           (b.northing - a.northing) * (c.easting - a.easting);
}

std::optional<core::PlanePoint> crossing(core::PlanePoint a, core::PlanePoint b, core::PlanePoint c,
                                         core::PlanePoint d) {
    const double from = turn(c, d, a), to = turn(c, d, b);
    if ((from > 0.0) == (to > 0.0) || (turn(a, b, c) > 0.0) == (turn(a, b, d) > 0.0)) return std::nullopt;
    const double along = from / (from - to);
    return core::PlanePoint{a.easting + along * (b.easting - a.easting),
                            a.northing + along * (b.northing - a.northing)};
}

bool apart(const core::Box& box, core::PlanePoint c, core::PlanePoint d) {
    return std::max(c.easting, d.easting) < box.south_west.easting ||
           std::min(c.easting, d.easting) > box.north_east.easting ||
           std::max(c.northing, d.northing) < box.south_west.northing ||
           std::min(c.northing, d.northing) > box.north_east.northing;
}

void cross(const Line& line, const core::Box& box, const Line& other,
           std::vector<core::PlanePoint>& crossings) {
    for (std::size_t j = 1; j < other.size(); ++j) {
        if (apart(box, other[j - 1], other[j])) continue;
        for (std::size_t i = 1; i < line.size(); ++i)
            if (const auto where = crossing(line[i - 1], line[i], other[j - 1], other[j]))
                crossings.push_back(*where);
    }
}

}  // namespace

std::vector<core::PlanePoint> crossings(const Line& line, std::span<const Shape> shapes) {
    std::vector<core::PlanePoint> all;
    const auto box = box_of(line);
    if (!box) return all;
    for (const Shape& shape : shapes) {
        for (const Line& other : shape.lines)
            cross(line, *box, other, all);
        for (const Polygon& polygon : shape.polygons) {
            cross(line, *box, polygon.outer, all);
            for (const Line& hole : polygon.holes)
                cross(line, *box, hole, all);
        }
    }
    return all;
}

}  // namespace roostward::geo
