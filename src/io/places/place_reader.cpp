#include "places/place_reader.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "files/input_file.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::io {

namespace {

bool is_geographic(const geo::Crs& crs) {
    return crs == geo::wgs84() || geo::facts_of(crs).geographic;
}

geo::Crs crs_of_geometry(const RowSource& rows, const InputSource& source) {
    // Text formats of longitude and latitude are often filled with metres; the site file may then say so.
    const bool assumed = rows.crs() && is_geographic(*rows.crs());
    if (rows.crs() && !(assumed && !source.crs.empty())) return *rows.crs();
    if (!source.crs.empty()) return {source.crs};
    cannot_use(source, core::said("error.file_without_crs"));
}

/// The geometry is used, not the columns that repeat it.
void forget_place_columns(std::vector<std::string>& told) {
    const auto is_place = [](const std::string& column) {
        return column.starts_with("lon ") || column.starts_with("lat ") || column.starts_with("x ") ||
               column.starts_with("y ");
    };
    told.erase(std::remove_if(told.begin(), told.end(), is_place), told.end());
}

std::string as_text(core::PlanePoint p) {
    return fmt::format("{}, {}", p.easting, p.northing);
}

bool given(const FieldMap& fields, const std::string& one, const std::string& other) {
    return fields.at(one).given() && fields.at(other).given();
}

}  // namespace

std::vector<FieldSpec> with_place_fields(std::vector<FieldSpec> specs) {
    specs.push_back({"lon",
                     {},
                     Dimension::angle,
                     {{"longitude"}, {"long"}, {"lng"}, {"decimallongitude"}, {"gpslongitude"}}});
    specs.push_back({"lat", {}, Dimension::angle, {{"latitude"}, {"decimallatitude"}, {"gpslatitude"}}});
    specs.push_back({"x", {}, Dimension::plain, {{"easting"}, {"eastings"}, {"xcoord"}, {"pointx"}, {"xm"}}});
    specs.push_back(
        {"y", {}, Dimension::plain, {{"northing"}, {"northings"}, {"ycoord"}, {"pointy"}, {"ym"}}});
    specs.push_back({"grid_ref",
                     {},
                     Dimension::plain,
                     {{"gridref"}, {"gridreference"}, {"mgrs"}, {"osgrid"}, {"osgridref"}, {"ngr"}}});
    return specs;
}

PlaceReader::PlaceReader(const OpenLayer& layer, const InputSource& source, LayerFacts& facts,
                         const std::string& number) {
    const FieldMap& fields = layer.fields;
    FileFacts& file = facts.present();
    const bool degrees = given(fields, "lon" + number, "lat" + number);
    const bool metres = given(fields, "x" + number, "y" + number);
    if (number.empty() && fields.at("grid_ref").given()) grid_ref_ = &fields.at("grid_ref");
    if (layer.rows->has_geometry()) {
        file.crs = crs_of_geometry(*layer.rows, source);
        forget_place_columns(file.file.columns);
    } else if (metres && (!degrees || !source.crs.empty())) {
        if (source.crs.empty()) {
            cannot_use(source, core::said("error.columns_without_crs"));
        }
        file.crs = {source.crs};
        from_ = From::columns;
        x_ = &fields.at("x" + number);
        y_ = &fields.at("y" + number);
    } else if (degrees) {
        file.crs = geo::wgs84();
        from_ = From::columns;
        x_ = &fields.at("lon" + number);
        y_ = &fields.at("lat" + number);
    } else if (grid_ref_ != nullptr) {
        file.crs = geo::wgs84();
        from_ = From::grid_reference;
    } else {
        cannot_use(source, core::said("error.no_coordinates"));
    }
    geographic_ = is_geographic(file.crs);
    file.file.crs = file.crs.definition;
    if (grid_ref_ != nullptr) grid_ = std::make_unique<GridPlaces>(facts);
}

bool PlaceReader::told(const OpenLayer& layer, const std::string& number) {
    return layer.rows->has_geometry() || given(layer.fields, "lon" + number, "lat" + number) ||
           given(layer.fields, "x" + number, "y" + number) ||
           (number.empty() && layer.fields.at("grid_ref").given());
}

bool PlaceReader::without_coordinates(const RowReader& row) const {
    if (from_ == From::grid_reference) return true;
    if (from_ == From::geometry) return row.row().shape->empty();
    return says_nothing(row.text(*x_)) && says_nothing(row.text(*y_));
}

bool PlaceReader::blank(const RowReader& row) const {
    return without_coordinates(row) && (grid_ref_ == nullptr || says_nothing(row.text(*grid_ref_)));
}

core::PlanePoint PlaceReader::point_in_columns(const RowReader& row) const {
    const std::optional<double> x = row.number(*x_, {}, OtherwiseRow::is_set_aside);
    const std::optional<double> y = row.number(*y_, {}, OtherwiseRow::is_set_aside);
    if (x && y) return {*x, *y};
    if (row.report().usable()) {
        row.report().set_aside((x ? y_ : x_)->name, "no coordinates", "",
                               core::said("finding.one_coordinate"));
    }
    return {};
}

core::PlanePoint PlaceReader::point(const RowReader& row) const {
    return place(row).point;
}

PlaceReader::Place PlaceReader::place(const RowReader& row) const {
    if (grid_ref_ == nullptr || !without_coordinates(row)) return {coordinates(row)};
    if (says_nothing(row.text(*grid_ref_))) {
        row.report().set_aside(grid_ref_->name, "no coordinates", "",
                               core::said("finding.no_grid_reference"));
        return {};
    }
    const std::optional<GridPlaces::Square> square = grid_->read(row, *grid_ref_);
    return square ? Place{square->middle, square->side} : Place{};
}

core::PlanePoint PlaceReader::coordinates(const RowReader& row) const {
    core::PlanePoint point;
    if (from_ == From::columns) {
        point = point_in_columns(row);
    } else if (const geo::Shape& shape = *row.row().shape; shape.empty()) {
        row.report().set_aside("geometry", "empty geometry", "", core::said("finding.empty_geometry"));
    } else if (shape.points.size() != 1 || !shape.lines.empty() || !shape.polygons.empty()) {
        row.report().set_aside("geometry", "not a point", "", core::said("finding.not_a_point"));
    } else {
        point = shape.points.front();
    }
    if (row.report().usable()) judge(point, row);
    return point;
}

geo::Shape PlaceReader::shape(const RowReader& row) const {
    if (from_ != From::geometry) {
        const core::PlanePoint only = point(row);
        return row.report().usable() ? geo::Shape{{only}, {}, {}} : geo::Shape{};
    }
    if (row.row().shape->empty()) {
        row.report().set_aside("geometry", "empty geometry", "", core::said("finding.empty_geometry"));
        return {};
    }
    geo::Shape shape = *row.row().shape;
    const auto judge_line = [&](const geo::Line& line) {
        for (std::size_t i = 0; i < line.size() && row.report().usable(); ++i)
            judge(line[i], row);
    };
    judge_line(shape.points);
    for (const geo::Line& line : shape.lines)
        judge_line(line);
    for (const geo::Polygon& polygon : shape.polygons)
        judge_line(polygon.outer);
    return shape;
}

geo::Line PlaceReader::line(const RowReader& row, const OtherLines& otherwise) const {
    geo::Shape drawn = shape(row);
    if (!row.report().usable()) return {};
    if (drawn.lines.size() != 1 || !drawn.points.empty() || !drawn.polygons.empty()) {
        row.report().set_aside("geometry", "not a line", "", core::said(otherwise.several_parts));
        return {};
    }
    if (geo::length_of(drawn.lines.front()).value() <= 0.0) {
        row.report().set_aside("geometry", "line without length", "", core::said(otherwise.no_length));
        return {};
    }
    return std::move(drawn.lines.front());
}

void PlaceReader::judge(core::PlanePoint p, const RowReader& row) const {
    const auto within = [](double value, double most) { return std::abs(value) <= most; };
    const bool known = std::isfinite(p.easting) && std::isfinite(p.northing);
    if (p == core::PlanePoint{0.0, 0.0}) {
        row.report().set_aside("coordinates", "coordinates (0, 0)", as_text(p),
                               core::said("finding.zero_coordinates"));
    } else if (!known || (geographic_ && (!within(p.easting, 180.0) || !within(p.northing, 90.0)))) {
        if (known && within(p.easting, 90.0) && within(p.northing, 180.0)) {
            row.report().set_aside("coordinates", "swapped coordinates", as_text(p),
                                   core::said("finding.swapped_coordinates"));
        } else {
            row.report().set_aside("coordinates", "coordinates out of range", as_text(p),
                                   core::said("finding.coordinates_out_of_range"));
        }
    }
}

}  // namespace roostward::io
