#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "roostward/io/writers.hpp"
#include "writing/checked_file.hpp"
#include "writing/write_geojson_cut.hpp"

namespace roostward::io {

namespace {

/// Features that are composed and transformed together, and blocks that wait for each other to be written.
constexpr std::size_t block = 512;
constexpr std::size_t blocks_at_once = 16;

template <class Use>
void for_each_point(geo::Geometry& geometry, const Use& use) {
    const auto each = [&use](geo::Line& line) { std::ranges::for_each(line, use); };
    if (auto* point = std::get_if<core::PlanePoint>(&geometry)) {
        use(*point);
    } else if (auto* line = std::get_if<geo::Line>(&geometry)) {
        each(*line);
    } else {
        for (geo::Polygon& polygon : std::get<std::vector<geo::Polygon>>(geometry)) {
            each(polygon.outer);
            std::ranges::for_each(polygon.holes, each);
        }
    }
}

/// All coordinates of the block in one go.
void transform(std::vector<geo::Feature>& features, const geo::Transform& to_globe) {
    std::vector<core::PlanePoint> points;
    for (geo::Feature& feature : features)
        for_each_point(feature.geometry, [&](const core::PlanePoint& p) { points.push_back(p); });
    to_globe.apply(points);
    auto next = points.begin();
    for (geo::Feature& feature : features)
        for_each_point(feature.geometry, [&](core::PlanePoint& p) { p = *next++; });
}

/// Seven decimals, without trailing zeros, never "-0".
void append_degrees(std::string& out, double degrees) {
    const std::int64_t steps = std::llround(degrees * 1e7);
    const auto magnitude = static_cast<std::uint64_t>(std::abs(steps));
    char digits[24];
    char* const end = digits + sizeof digits;
    char* at = end;
    std::uint64_t fraction = magnitude % 10'000'000;
    if (fraction != 0) {
        int places = 7;
        for (; fraction % 10 == 0; --places)
            fraction /= 10;
        for (; places > 0; --places, fraction /= 10)
            *--at = static_cast<char>('0' + fraction % 10);
        *--at = '.';
    }
    std::uint64_t whole = magnitude / 10'000'000;
    do {
        *--at = static_cast<char>('0' + whole % 10);
        whole /= 10;
    } while (whole != 0);
    if (steps < 0) *--at = '-';
    out.append(at, end);
}

template <class Items, class Append>
void append_list(std::string& out, const Items& items, const Append& append) {
    out += '[';
    for (std::size_t i = 0; i < items.size(); ++i) {
        if (i > 0) out += ',';
        append(out, items[i]);
    }
    out += ']';
}

void append_position(std::string& out, core::PlanePoint p) {
    out += '[';
    append_degrees(out, p.easting);
    out += ',';
    append_degrees(out, p.northing);
    out += ']';
}

void append_line(std::string& out, const geo::Line& line) {
    append_list(out, line, append_position);
}

void append_polygon(std::string& out, const geo::Polygon& polygon) {
    out += '[';
    append_line(out, polygon.outer);
    for (const geo::Line& hole : polygon.holes) {
        out += ',';
        append_line(out, hole);
    }
    out += ']';
}

/// One part is written as `type`, several as its Multi- kind, none as null.
template <class Parts, class Append>
void append_parts(std::string& out, std::string_view type, const Parts& parts, const Append& append) {
    if (parts.empty()) {
        out += "null";
        return;
    }
    const bool several = parts.size() > 1;
    out += several ? R"({"type":"Multi)" : R"({"type":")";
    out += type;
    out += R"(","coordinates":)";
    if (several) {
        append_list(out, parts, append);
    } else {
        append(out, parts.front());
    }
    out += '}';
}

double wrapped(double longitude) {
    return std::abs(longitude) <= 180.0 ? longitude : std::remainder(longitude, 360.0);
}

struct GeometryWriter {
    std::string& out;

    void operator()(core::PlanePoint p) const {
        append_parts(out, "Point", std::vector{core::PlanePoint{wrapped(p.easting), p.northing}},
                     append_position);
    }
    void operator()(const geo::Line& line) const {
        append_parts(out, "LineString", cut_at_antimeridian(line), append_line);
    }
    void operator()(const std::vector<geo::Polygon>& polygons) const {
        std::vector<geo::Polygon> parts = cut_at_antimeridian(polygons);
        std::ranges::for_each(parts, wind_rings);
        append_parts(out, "Polygon", parts, append_polygon);
    }
};

/// A place that cannot be given in longitude and latitude leaves its feature unlocated (RFC 7946,
/// section 3.2).
bool is_located(geo::Geometry& geometry) {
    std::size_t points = 0;
    bool finite = true;
    for_each_point(geometry, [&](const core::PlanePoint& p) {
        ++points;
        finite = finite && std::isfinite(p.easting) && std::isfinite(p.northing);
    });
    return finite && points >= (std::holds_alternative<geo::Line>(geometry) ? 2U : 1U);
}

void append_feature(std::string& out, geo::Feature& feature, const std::vector<std::string>& keys) {
    out += R"({"type":"Feature","properties":{)";
    for (std::size_t i = 0; i < keys.size(); ++i) {
        out += keys[i];
        core::append_json(out, feature.values.at(i));
    }
    out += R"(},"geometry":)";
    if (is_located(feature.geometry)) {
        std::visit(GeometryWriter{out}, feature.geometry);
    } else {
        out += "null";
    }
    out += '}';
}

/// `"rank":` and, from the second on, `,"tree":`
std::vector<std::string> keys_of(const std::vector<geo::Column>& columns) {
    std::vector<std::string> keys;
    keys.reserve(columns.size());
    for (const geo::Column& column : columns)
        keys.push_back((keys.empty() ? "" : ",") + core::to_json(column.name) + ":");
    return keys;
}

/// The features from `begin` on, each with what parts it from the one before.
std::string text_of_block(const geo::Layer& layer, std::size_t begin, const std::vector<std::string>& keys,
                          const geo::Transform& to_globe) {
    const std::size_t end = std::min(begin + block, layer.size);
    std::vector<geo::Feature> features;
    features.reserve(end - begin);
    for (std::size_t i = begin; i < end; ++i)
        features.push_back(layer.feature(i));
    transform(features, to_globe);
    std::string text;
    for (std::size_t i = begin; i < end; ++i) {
        text += i == 0 ? "\n" : ",\n";
        append_feature(text, features[i - begin], keys);
    }
    return text;
}

}  // namespace

void write_geojson(const std::filesystem::path& file, const geo::Layer& layer, core::Threads threads) {
    CheckedFile out(file);
    const geo::Transform to_globe(layer.crs, geo::wgs84());
    const std::vector<std::string> keys = keys_of(layer.columns);
    out.write(R"({"type":"FeatureCollection","name":)" + core::to_json(layer.name) + R"(,"features":[)");
    const std::size_t blocks = (layer.size + block - 1) / block;
    for (std::size_t first = 0; first < blocks; first += blocks_at_once) {
        std::vector<std::string> texts(std::min(blocks_at_once, blocks - first));
        core::parallel_for(texts.size(), 1, threads, [&](std::size_t i, std::size_t) {
            texts[i] = text_of_block(layer, (first + i) * block, keys, geo::Transform(to_globe));
        });
        for (const std::string& text : texts)
            out.write(text);
    }
    out.write("\n]}\n");
    out.finish();
}

}  // namespace roostward::io
