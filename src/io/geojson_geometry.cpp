#include "geojson_geometry.hpp"

#include <string_view>
#include <utility>

namespace roostward::io {

namespace {

namespace json = simdjson::ondemand;

core::PlanePoint point_of(json::array position) {
    core::PlanePoint point;
    std::size_t place = 0;
    for (auto coordinate : position) {
        const double value = coordinate.get_double();
        if (place == 0) point.easting = value;
        if (place == 1) point.northing = value;
        ++place;
    }
    if (place < 2) throw simdjson::simdjson_error(simdjson::INCORRECT_TYPE);
    return point;
}

geo::Line line_of(json::array positions) {
    geo::Line line;
    for (auto position : positions) line.push_back(point_of(position.get_array()));
    return line;
}

geo::Polygon polygon_of(json::array rings) {
    geo::Polygon polygon;
    bool first = true;
    for (auto ring : rings) {
        geo::Line line = line_of(ring.get_array());
        if (std::exchange(first, false)) polygon.outer = std::move(line);
        else polygon.holes.push_back(std::move(line));
    }
    return polygon;
}

void add(geo::Line line, geo::Shape& shape) {
    if (!line.empty()) shape.lines.push_back(std::move(line));
}

void add(geo::Polygon polygon, geo::Shape& shape) {
    if (!polygon.outer.empty()) shape.polygons.push_back(std::move(polygon));
}

void take_coordinates(std::string_view type, json::array coordinates, geo::Shape& shape) {
    if (type == "Point") {
        if (!coordinates.is_empty()) shape.points.push_back(point_of(coordinates));
    } else if (type == "LineString") {
        add(line_of(coordinates), shape);
    } else if (type == "Polygon") {
        add(polygon_of(coordinates), shape);
    } else if (type == "MultiPoint") {
        for (auto position : coordinates) shape.points.push_back(point_of(position.get_array()));
    } else if (type == "MultiLineString") {
        for (auto line : coordinates) add(line_of(line.get_array()), shape);
    } else if (type == "MultiPolygon") {
        for (auto polygon : coordinates) add(polygon_of(polygon.get_array()), shape);
    }
}

}  // namespace

void clear(geo::Shape& shape) {
    shape.points.clear();
    shape.lines.clear();
    shape.polygons.clear();
}

void take_geojson_shape(json::object geometry, geo::Shape& shape) {
    std::string_view type;
    if (geometry.find_field_unordered("type").get(type) != simdjson::SUCCESS) return;
    if (type == "GeometryCollection") {
        json::array parts;
        if (geometry.find_field_unordered("geometries").get(parts) != simdjson::SUCCESS) return;
        for (auto part : parts) take_geojson_shape(part.get_object(), shape);
        return;
    }
    json::array coordinates;
    if (geometry.find_field_unordered("coordinates").get(coordinates) != simdjson::SUCCESS) return;
    try {
        take_coordinates(type, coordinates, shape);
    } catch (const simdjson::simdjson_error& error) {
        const bool only_here = error.error() == simdjson::INCORRECT_TYPE || error.error() == simdjson::NUMBER_ERROR;
        if (!only_here) throw;
        clear(shape);
    }
}

}  // namespace roostward::io
