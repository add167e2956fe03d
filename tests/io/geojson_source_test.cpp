#include <gtest/gtest.h>

#include <ostream>
#include <string>
#include <vector>

#include "io/reading_site.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/row_source.hpp"

namespace roostward::io {
namespace {

using testing::ScratchFolder;
using testing::source_of;

/// Everything that a source hands out, as text.
struct Told {
    std::vector<std::string> columns;
    std::vector<std::string> rows;
    std::string crs;
    friend bool operator==(const Told&, const Told&) = default;
    friend std::ostream& operator<<(std::ostream& out, const Told& told) {
        for (const std::string& column : told.columns)
            out << column << ", ";
        for (const std::string& row : told.rows)
            out << "\n" << row;
        return out << "\n" << told.crs;
    }
};

std::string told_value(const Value& value) {
    if (const auto* number = std::get_if<double>(&value)) return std::to_string(*number);
    if (const auto* text = std::get_if<std::string_view>(&value)) return "'" + std::string(*text) + "'";
    return "-";
}

std::string told_line(const geo::Line& line) {
    std::string out;
    for (const core::PlanePoint& p : line)
        out += std::to_string(p.easting) + " " + std::to_string(p.northing) + ",";
    return out;
}

std::string told_shape(const geo::Shape& shape) {
    std::string out = "points " + told_line(shape.points);
    for (const geo::Line& line : shape.lines)
        out += " line " + told_line(line);
    for (const geo::Polygon& polygon : shape.polygons) {
        out += " polygon " + told_line(polygon.outer);
        for (const geo::Line& hole : polygon.holes)
            out += " hole " + told_line(hole);
    }
    return out;
}

/// As read directly; with `only` given, as read by GDAL.
Told told(const std::string& features, const std::string& only = "", const std::string& head = "") {
    const ScratchFolder folder;
    testing::put_text(folder / "layer.geojson",
                      "{\"type\":\"FeatureCollection\"," + head + "\"features\":[" + features + "]}");
    InputSource source = source_of("trees", folder / "layer.geojson");
    source.only = only;
    const std::unique_ptr<RowSource> rows = open_rows(source);
    Told out{rows->columns(), {}, rows->crs() ? rows->crs()->definition : "none"};
    rows->for_each(std::vector<bool>(rows->columns().size(), true), [&](const SourceRow& row) {
        std::string text = std::to_string(row.number) + ": ";
        for (const Value& value : row.values)
            text += told_value(value) + " ";
        out.rows.push_back(text + told_shape(*row.shape));
        return true;
    });
    return out;
}

std::string feature(const std::string& properties, const std::string& geometry) {
    return R"({"type":"Feature","properties":)" + properties + R"(,"geometry":)" + geometry + "}";
}

const std::string here = R"({"type":"Point","coordinates":[-1.8956,52.2982,12.5]})";

// RFC 7946, appendix A: its own examples of every geometry. GDAL's reader is the outside check.
TEST(GeoJsonSource, ReadsEveryGeometryAsGdalDoes) {
    const std::vector<std::string> geometries = {
        R"({"type":"Point","coordinates":[100.0,0.0]})",
        R"({"type":"LineString","coordinates":[[100.0,0.0],[101.0,1.0]]})",
        R"({"type":"Polygon","coordinates":[[[100.0,0.0],[101.0,0.0],[101.0,1.0],[100.0,1.0],[100.0,0.0]],
            [[100.8,0.8],[100.8,0.2],[100.2,0.2],[100.2,0.8],[100.8,0.8]]]})",
        R"({"coordinates":[[100.0,0.0],[101.0,1.0]],"type":"MultiPoint"})",
        R"({"type":"MultiLineString","coordinates":[[[100.0,0.0],[101.0,1.0]],[[102.0,2.0],[103.0,3.0]]]})",
        R"({"type":"MultiPolygon","coordinates":[[[[102.0,2.0],[103.0,2.0],[103.0,3.0],[102.0,3.0],[102.0,2.0]]],
            [[[100.0,0.0],[101.0,0.0],[101.0,1.0],[100.0,1.0],[100.0,0.0]]]]})",
        R"({"type":"GeometryCollection","geometries":[{"type":"Point","coordinates":[100.0,0.0]},
            {"type":"LineString","coordinates":[[101.0,0.0],[102.0,1.0]]}]})",
        "null",
        here};
    std::string features;
    for (const std::string& geometry : geometries) {
        features += (features.empty() ? "" : ",") + feature(R"({"n":1})", geometry);
    }
    const Told direct = told(features);
    EXPECT_EQ(direct, told(features, "1 = 1"));
    EXPECT_EQ(direct.rows.size(), geometries.size());
}

TEST(GeoJsonSource, ReadsPropertiesAsGdalDoes) {
    const std::string features =
        feature(R"({"tree":"T \u00e9 \"old\"","dbh_cm":35.5,"row":7,"date":"2026-06-12"})", here) + "," +
        feature(R"({"row":8,"dbh_cm":null,"tree":"  B ","date":"","more":"x"})", here) + "," +
        feature("null", here);
    const Told direct = told(features);
    EXPECT_EQ(direct, told(features, "1 = 1"));
    EXPECT_EQ(direct.columns, (std::vector<std::string>{"tree", "dbh_cm", "row", "date", "more"}));
}

TEST(GeoJsonSource, KeepsNestedValuesAndTruthsAsText) {
    const Told direct = told(feature(R"({"a":{"b":[1,2]},"c":true,"d\"e":3})", here));
    EXPECT_EQ(direct.columns, (std::vector<std::string>{"a", "c", "d\"e"}));
    EXPECT_EQ(direct.rows[0].substr(0, direct.rows[0].find("points")), "1: '{\"b\":[1,2]}' 'true' 3.000000 ");
}

TEST(GeoJsonSource, OneBadGeometryHarmsNoOther) {
    const Told direct =
        told(feature(R"({"n":1})", R"({"type":"LineString","coordinates":[[1,2],["a",[3]],[4,5]]})") + "," +
             feature(R"({"n":2})", R"({"type":"Point","coordinates":[1]})") + "," +
             feature(R"({"n":3})", R"({"type":"Circle","coordinates":[1,2]})") + "," +
             feature(R"({"n":4})", here));
    ASSERT_EQ(direct.rows.size(), 4U);
    EXPECT_EQ(direct.rows[0], "1: 1.000000 points ");
    EXPECT_EQ(direct.rows[1], "2: 2.000000 points ");
    EXPECT_EQ(direct.rows[2], "3: 3.000000 points ");
    EXPECT_EQ(direct.rows[3], "4: 4.000000 points -1.895600 52.298200,");
}

// Found by the fuzzer: all rows behind such a geometry were lost without a word.
TEST(GeoJsonSource, StopsWhereAGeometryIsNoJson) {
    const std::string features = feature(R"({"n":1})", here) + "," +
                                 feature(R"({"n":2})", R"({"type":"Point"-"coordinates":[1,2]})") + "," +
                                 feature(R"({"n":3})", here);
    try {
        (void)told(features);
        FAIL();
    } catch (const core::Error& error) {
        EXPECT_EQ(error.fault(), core::Fault::inputs);
        EXPECT_NE(std::string(error.what()).find("reading stopped after 1 rows"), std::string::npos);
    }
}

// The older GeoJSON of 2008, section 3, has a member crs; RFC 7946, section 4: without it WGS 84, longitude
// first.
TEST(GeoJsonSource, KnowsItsSystem) {
    const std::string one = feature(R"({"n":1})", here);
    const auto crs = [&](const std::string& member) { return told(one, "", member).crs; };
    EXPECT_EQ(crs(""), "OGC:CRS84");
    EXPECT_EQ(crs(R"("crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:OGC:1.3:CRS84"}},)"),
              "OGC:CRS84");
    EXPECT_EQ(crs(R"("crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::27700"}},)"),
              "EPSG:27700");
    EXPECT_EQ(crs(R"("crs":{"type":"name","properties":{"name":"EPSG:4326"}},)"), "OGC:CRS84");
    EXPECT_EQ(crs(R"("crs":null,)"), "none");
}

TEST(GeoJsonSource, IdentifiersInTextAreAColumn) {
    const std::string with_id =
        R"({"type":"Feature","id":"A7","properties":{"n":1},"geometry":)" + here + "}";
    const Told direct = told(with_id);
    EXPECT_EQ(direct.columns.back(), "id");
    EXPECT_NE(direct.rows[0].find("'A7'"), std::string::npos);
}

}  // namespace
}  // namespace roostward::io
