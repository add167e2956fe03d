#include "writing/geopackage_geometry.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <variant>

#include "writing/binary_numbers.hpp"
#include "writing/write_number.hpp"

namespace roostward::io {

namespace {

constexpr char little_endian = 1;
constexpr char with_envelope = 1 << 1;

// OGC 06-103r4, table 6
constexpr std::uint32_t wkb_point = 1;
constexpr std::uint32_t wkb_line_string = 2;
constexpr std::uint32_t wkb_polygon = 3;
constexpr std::uint32_t wkb_multi_polygon = 6;

template <class Number>
void append(std::string& out, Number value) {
    append_binary<std::endian::little>(out, value);
}

/// The header; `box` is none for points.
std::string header(std::int32_t srs_id, const core::Box* box) {
    std::string out = "GP";
    out += '\0';  // version 1
    out += static_cast<char>(little_endian | (box == nullptr ? 0 : with_envelope));
    append(out, srs_id);
    if (box != nullptr)
        for (const double side : {box->south_west.easting, box->north_east.easting, box->south_west.northing,
                                  box->north_east.northing})
            append(out, side);
    return out;
}

}  // namespace

void include(core::Box& box, const core::Box& other) {
    box.south_west.easting = std::min(box.south_west.easting, other.south_west.easting);
    box.south_west.northing = std::min(box.south_west.northing, other.south_west.northing);
    box.north_east.easting = std::max(box.north_east.easting, other.north_east.easting);
    box.north_east.northing = std::max(box.north_east.northing, other.north_east.northing);
}

bool GeometryEncoder::encode(const geo::Geometry& geometry) {
    const bool is_point = std::holds_alternative<core::PlanePoint>(geometry);
    bytes_ = header(srs_id_, is_point ? nullptr : &nowhere);
    box_ = nowhere;
    finite_ = true;
    std::visit([this](const auto& shape) { add(shape); }, geometry);
    if (!is_point) {
        const std::string known = header(srs_id_, &box_);
        bytes_.replace(0, known.size(), known);
    }
    const auto* line = std::get_if<geo::Line>(&geometry);
    const bool has_vertices = box_.south_west.easting <= box_.north_east.easting;
    return finite_ && has_vertices && (line == nullptr || line->size() > 1);
}

void GeometryEncoder::add(core::PlanePoint point) {
    add_shape(wkb_point);
    add_vertex(point);
}

void GeometryEncoder::add(const geo::Line& line) {
    add_shape(wkb_line_string);
    add_vertices(line);
}

void GeometryEncoder::add(const std::vector<geo::Polygon>& polygons) {
    add_shape(wkb_multi_polygon);
    add_count(polygons.size());
    for (const geo::Polygon& polygon : polygons) {
        add_shape(wkb_polygon);
        add_count(1 + polygon.holes.size());
        add_vertices(polygon.outer);
        for (const geo::Line& hole : polygon.holes)
            add_vertices(hole);
    }
}

void GeometryEncoder::add_shape(std::uint32_t kind) {
    bytes_ += little_endian;
    append(bytes_, kind);
}

void GeometryEncoder::add_count(std::size_t count) {
    append(bytes_, static_cast<std::uint32_t>(count));
}

void GeometryEncoder::add_vertex(core::PlanePoint point) {
    const core::PlanePoint rounded{rounded_to_steps(point.easting, steps_),
                                   rounded_to_steps(point.northing, steps_)};
    append(bytes_, rounded.easting);
    append(bytes_, rounded.northing);
    include(box_, {rounded, rounded});
    finite_ = finite_ && std::isfinite(rounded.easting) && std::isfinite(rounded.northing);
}

void GeometryEncoder::add_vertices(const geo::Line& line) {
    add_count(line.size());
    for (const core::PlanePoint& point : line)
        add_vertex(point);
}

}  // namespace roostward::io
