#include <simdjson.h>

#include <algorithm>
#include <optional>
#include <string>
#include <unordered_map>
#include <utility>

#include "files/input_file.hpp"
#include "files/row_sources.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/io/text_encoding.hpp"

namespace roostward::io {

namespace {

namespace json = simdjson::ondemand;

constexpr std::size_t longest_document =
    0xFFFFFFFF - simdjson::SIMDJSON_PADDING;  // simdjson counts in 32 bits

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
    for (auto position : positions)
        line.push_back(point_of(position.get_array()));
    return line;
}

geo::Polygon polygon_of(json::array rings) {
    geo::Polygon polygon;
    bool first = true;
    for (auto ring : rings) {
        geo::Line line = line_of(ring.get_array());
        if (std::exchange(first, false))
            polygon.outer = std::move(line);
        else
            polygon.holes.push_back(std::move(line));
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
        for (auto position : coordinates)
            shape.points.push_back(point_of(position.get_array()));
    } else if (type == "MultiLineString") {
        for (auto line : coordinates)
            add(line_of(line.get_array()), shape);
    } else if (type == "MultiPolygon") {
        for (auto polygon : coordinates)
            add(polygon_of(polygon.get_array()), shape);
    }
}

/// The member of this name; empty where it is not there or of another kind. Throws simdjson_error where the
/// text is no JSON: nothing can be read behind that.
template <class Kind>
std::optional<Kind> member_of(json::object object, std::string_view name) {
    Kind member;
    const simdjson::error_code problem = object.find_field_unordered(name).get(member);
    if (problem == simdjson::SUCCESS) return member;
    const bool absent = problem == simdjson::NO_SUCH_FIELD || problem == simdjson::INCORRECT_TYPE;
    if (!absent) throw simdjson::simdjson_error(problem);
    return std::nullopt;
}

/// Empties the shape, which keeps its memory.
void clear(geo::Shape& shape) {
    shape.points.clear();
    shape.lines.clear();
    shape.polygons.clear();
}

/// Adds a geometry (RFC 7946, section 3.1) to the shape. Heights are left out. One of another type, or with
/// coordinates that are no numbers, adds nothing. Throws simdjson_error where the text is no JSON.
void take_shape(json::object geometry, geo::Shape& shape) {
    const auto type = member_of<std::string_view>(geometry, "type");
    if (type == "GeometryCollection") {
        auto parts = member_of<json::array>(geometry, "geometries");
        if (!parts) return;
        for (auto part : *parts)
            take_shape(part.get_object(), shape);
        return;
    }
    const auto coordinates = type ? member_of<json::array>(geometry, "coordinates") : std::nullopt;
    if (!coordinates) return;
    try {
        take_coordinates(*type, *coordinates, shape);
    } catch (const simdjson::simdjson_error& error) {
        const bool only_here =
            error.error() == simdjson::INCORRECT_TYPE || error.error() == simdjson::NUMBER_ERROR;
        if (!only_here) throw;
        clear(shape);
    }
}

/// "EPSG:27700" of "urn:ogc:def:crs:EPSG::27700"; longitude before latitude stays WGS 84.
geo::Crs crs_named(std::string_view name) {
    const std::size_t epsg = name.find("EPSG:");
    const std::size_t code = name.find_last_of(':');
    if (name.find("CRS84") != std::string_view::npos) return geo::wgs84();
    if (epsg == std::string_view::npos) return {std::string(name)};
    if (name.substr(code + 1) == "4326") return geo::wgs84();
    return {"EPSG:" + std::string(name.substr(code + 1))};
}

/// The value of a property. Text lives in the parser until the document is read again.
Value value_of(json::value value) {
    switch (value.type()) {
        case json::json_type::number:
            return double(value.get_double());
        case json::json_type::boolean:
            return std::string_view(bool(value.get_bool()) ? "true" : "false");
        case json::json_type::string: {
            const std::string_view text = value.get_string();
            const std::size_t first = text.find_first_not_of(" \t\r\n");
            if (first == std::string_view::npos) return std::monostate();
            return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
        }
        case json::json_type::null:
            return std::monostate();
        default:
            return std::string_view(simdjson::to_json_string(value));
    }
}

class GeoJsonSource : public RowSource {
 public:
    explicit GeoJsonSource(const InputSource& source) : source_(source) {
        DecodedText text = decoded(bytes_of(source));
        text_ = std::move(text.text);
        encoding_ = text.encoding;
        static_assert(simdjson::SIMDJSON_PADDING <= room_behind);
        text_.reserve(text_.size() + simdjson::SIMDJSON_PADDING);
    }

    /// Finds the columns. False where this is no FeatureCollection; throws simdjson_error where it is no
    /// JSON.
    bool take_columns() {
        if (text_.size() > longest_document) return false;
        bool features = false;
        bool id = false;
        document_ = parser_.iterate(text_.data(), text_.size(), text_.capacity());
        for (auto member : document_.get_object()) {
            const json::raw_json_string key = member.key();
            if (key == "type") {
                if (std::string_view(member.value()) != "FeatureCollection") return false;
            } else if (key == "crs") {
                take_crs(member.value());
            } else if (key == "features") {
                features = true;
                for (auto feature : member.value().get_array()) {
                    ++feature_count_;
                    id = take_names(feature.get_object()) || id;
                }
            }
        }
        if (id && !column_of_.contains("id")) add_column("id");
        return features;
    }

    [[nodiscard]] const std::vector<std::string>& columns() const override { return columns_; }
    [[nodiscard]] bool has_geometry() const override { return true; }
    [[nodiscard]] const std::optional<geo::Crs>& crs() const override { return crs_; }
    [[nodiscard]] std::size_t expected_rows() const override { return feature_count_; }
    [[nodiscard]] std::vector<RowTrouble> notes() const override { return encoding_notes(encoding_); }

    void for_each(const std::vector<bool>& wanted, const Visitor& visit) override {
        std::size_t number = 0;
        try {
            document_.rewind();
            for (auto feature : document_.find_field("features").get_array()) {
                take_feature(feature.get_object(), wanted);
                if (!visit({++number, values_, &shape_, nullptr})) return;
            }
            if (number != feature_count_) throw simdjson::simdjson_error(simdjson::TAPE_ERROR);
        } catch (const simdjson::simdjson_error& error) {
            cannot_use(source_,
                       core::said("error.geojson_stopped", {{"rows", number}, {"why", error.what()}}));
        }
    }

 private:
    void take_crs(json::value value) {
        if (value.is_null()) {
            crs_.reset();
            return;
        }
        const auto properties = member_of<json::object>(value.get_object(), "properties");
        const auto name = properties ? member_of<std::string_view>(*properties, "name") : std::nullopt;
        if (name) crs_ = crs_named(*name);
    }

    void add_column(std::string_view name) {
        column_of_.emplace(name, columns_.size());
        columns_.emplace_back(name);
    }

    /// Throws simdjson_error for a name that was not met when the columns were looked for: then something is
    /// wrong with the brackets.
    [[nodiscard]] std::size_t column_called(std::string_view name) const {
        const auto found = column_of_.find(std::string(name));
        if (found == column_of_.end()) throw simdjson::simdjson_error(simdjson::TAPE_ERROR);
        return found->second;
    }

    /// Whether a property is named as the column at this place, without unescaping its name.
    [[nodiscard]] bool is_column(json::raw_json_string name, std::size_t place) const {
        return place < columns_.size() && name == columns_[place];
    }

    /// Whether the feature has an identifier in text of its own.
    bool take_names(json::object feature) {
        bool id = false;
        for (auto member : feature) {
            const json::raw_json_string key = member.key();
            json::value value = member.value();
            if (key == "id") id = value.type() == json::json_type::string;
            if (key != "properties" || value.is_null()) continue;
            std::size_t place = 0;
            for (auto property : value.get_object()) {
                if (is_column(property.key(), place++)) continue;
                const std::string_view name = property.unescaped_key();
                if (!column_of_.contains(std::string(name))) add_column(name);
            }
        }
        return id;
    }

    void take_feature(json::object feature, const std::vector<bool>& wanted) {
        std::fill(values_.begin(), values_.end(), Value());
        values_.resize(columns_.size());
        clear(shape_);
        std::optional<std::string_view> id;
        for (auto member : feature) {
            const json::raw_json_string key = member.key();
            json::value value = member.value();
            if (key == "properties" && !value.is_null())
                take_properties(value.get_object(), wanted);
            else if (key == "geometry" && !value.is_null())
                take_shape(value.get_object(), shape_);
            else if (key == "id" && value.type() == json::json_type::string)
                id = value.get_string();
        }
        const auto column = column_of_.find("id");
        if (id && column != column_of_.end() &&
            std::holds_alternative<std::monostate>(values_[column->second])) {
            values_[column->second] = *id;
        }
    }

    /// Most features have their properties in the order of the first.
    void take_properties(json::object properties, const std::vector<bool>& wanted) {
        std::size_t place = 0;
        for (auto property : properties) {
            const bool expected = is_column(property.key(), place);
            const std::size_t column = expected ? place : column_called(property.unescaped_key());
            if (wanted[column]) values_[column] = value_of(property.value());
            ++place;
        }
    }

    InputSource source_;
    std::string text_;
    Encoding encoding_ = Encoding::utf8;
    json::parser parser_;
    json::document document_;
    std::size_t feature_count_ = 0;
    std::vector<std::string> columns_;
    std::unordered_map<std::string, std::size_t> column_of_;
    std::optional<geo::Crs> crs_ = geo::wgs84();  // RFC 7946, section 4
    std::vector<Value> values_;
    geo::Shape shape_;
};

}  // namespace

std::unique_ptr<RowSource> open_geojson_rows(const InputSource& source) {
    if (!source.only.empty() || !source.layer.empty()) return nullptr;
    auto rows = std::make_unique<GeoJsonSource>(source);
    try {
        if (rows->take_columns()) return rows;
    } catch (const simdjson::simdjson_error&) {
        // Whatever this is, GDAL says best what is wrong with it.
    }
    return nullptr;
}

}  // namespace roostward::io
