#include "roostward/io/writers.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "io/child_process.hpp"
#include "io/scratch_folder.hpp"
#include "roostward/core/error.hpp"

namespace roostward::io {
namespace {

using nlohmann::json;
using testing::put_text;
using testing::ScratchFolder;
using testing::text_of;

geo::Layer layer_of(std::vector<geo::Feature> features, geo::GeometryKind kind, const geo::Crs& crs) {
    geo::Layer layer;
    layer.name = "ranked_sites";
    layer.geometry = kind;
    layer.crs = crs;
    layer.size = features.size();
    layer.feature = [features = std::move(features)](std::size_t i) { return features[i]; };
    return layer;
}

json geojson_of(const geo::Layer& layer) {
    const ScratchFolder scratch;
    write_geojson(scratch / "layer.geojson", layer, {});
    return json::parse(text_of(scratch / "layer.geojson"));
}

json geometry_of(geo::Geometry geometry, geo::GeometryKind kind, const geo::Crs& crs = geo::wgs84()) {
    return geojson_of(layer_of({{std::move(geometry), {}}}, kind, crs)).at("features").at(0).at("geometry");
}

/// Twice the signed area by the shoelace formula; positive counter-clockwise.
double shoelace(const json& ring) {
    double sum = 0.0;
    for (std::size_t i = 0; i + 1 < ring.size(); ++i)
        sum += ring[i][0].get<double>() * ring[i + 1][1].get<double>() -
               ring[i + 1][0].get<double>() * ring[i][1].get<double>();
    return sum;
}

// FIPS 180-4 with the examples of NIST's "SHA256.pdf" and the appendix of FIPS 180-2.
TEST(Sha256, AgreesWithFips180) {
    const ScratchFolder scratch;
    const auto of = [&](const std::string& text) {
        put_text(scratch / "text", text);
        return sha256_of(scratch / "text");
    };
    EXPECT_EQ(of("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    EXPECT_EQ(of("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
              "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    EXPECT_EQ(of(std::string(1'000'000, 'a')),
              "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST(Sha256, NamesAFileThatCannotBeRead) {
    try {
        (void)sha256_of("/nowhere/trees.csv");
        FAIL();
    } catch (const core::Error& error) {
        EXPECT_EQ(error.fault(), core::Fault::inputs);
        EXPECT_EQ(error.place().file, "/nowhere/trees.csv");
    }
}

// RFC 7946, section 3.1.9, first example.
TEST(GeoJson, CutsALineAtTheAntimeridian) {
    EXPECT_EQ(geometry_of(geo::Line{{170, 45}, {-170, 45}}, geo::GeometryKind::line),
              json::parse(
                  R"({"type":"MultiLineString","coordinates":[[[170,45],[180,45]],[[-180,45],[-170,45]]]})"));
}

// RFC 7946, section 3.1.9, second example: 10° on either side of ±180°, 40° to 50° north.
TEST(GeoJson, CutsAPolygonAtTheAntimeridian) {
    const geo::Polygon across{{{170, 40}, {-170, 40}, {-170, 50}, {170, 50}, {170, 40}}, {}};
    const json geometry = geometry_of(std::vector{across}, geo::GeometryKind::polygons);
    EXPECT_EQ(geometry["type"], "MultiPolygon");
    ASSERT_EQ(geometry["coordinates"].size(), 2U);
    double west = 0.0, east = 0.0;
    for (const json& polygon : geometry["coordinates"]) {
        ASSERT_EQ(polygon.size(), 1U);
        EXPECT_EQ(polygon[0].front(), polygon[0].back());
        (polygon[0][0][0].get<double>() > 0.0 ? east : west) += shoelace(polygon[0]) / 2.0;
        for (const json& position : polygon[0])
            EXPECT_GE(std::abs(position[0].get<double>()), 170.0);
    }
    EXPECT_DOUBLE_EQ(east, 100.0);
    EXPECT_DOUBLE_EQ(west, 100.0);
}

// A park on the antimeridian in UTM zone 60: its points lie on both sides.
TEST(GeoJson, CutsWhatCrossesInThePlanningPlane) {
    const geo::Transform to_plane(geo::wgs84(), {"EPSG:32760"});
    const geo::Line across{to_plane({179.995, -17.0}), to_plane({-179.995, -17.0})};
    const json geometry = geometry_of(across, geo::GeometryKind::line, {"EPSG:32760"});
    EXPECT_EQ(geometry["type"], "MultiLineString");
    EXPECT_EQ(geometry["coordinates"][0][0][0], 179.995);
    EXPECT_EQ(geometry["coordinates"][0].back()[0], 180);
    EXPECT_EQ(geometry["coordinates"][1][0][0], -180);
    EXPECT_EQ(geometry["coordinates"][1].back()[0], -179.995);
}

// RFC 7946, section 3.1.6, with the ring of appendix A.3 the wrong way round and not closed.
TEST(GeoJson, ClosesAndWindsRings) {
    const geo::Polygon ground{{{100, 0}, {100, 1}, {101, 1}, {101, 0}},
                              {{{100.2, 0.2}, {100.8, 0.2}, {100.8, 0.8}, {100.2, 0.8}, {100.2, 0.2}}}};
    const json geometry = geometry_of(std::vector{ground}, geo::GeometryKind::polygons);
    EXPECT_EQ(geometry["type"], "Polygon");
    ASSERT_EQ(geometry["coordinates"].size(), 2U);
    for (const json& ring : geometry["coordinates"])
        EXPECT_EQ(ring.front(), ring.back());
    EXPECT_GT(shoelace(geometry["coordinates"][0]), 0.0);
    EXPECT_LT(shoelace(geometry["coordinates"][1]), 0.0);
}

// A worked UTM example of an encyclopaedia: 43°38′33.24″N 79°23′13.7″W is 630084 E, 4833438 N in zone 17.
TEST(GeoJson, IsInLongitudeAndLatitude) {
    const json geometry =
        geometry_of(core::PlanePoint{630084, 4833438}, geo::GeometryKind::point, {"EPSG:32617"});
    EXPECT_EQ(geometry["type"], "Point");
    const double one_metre =
        1.0 / 80'000.0;  // degrees of longitude there; the example is given in whole metres
    EXPECT_NEAR(geometry["coordinates"][0].get<double>(), -(79 + 23 / 60.0 + 13.7 / 3600.0), one_metre);
    EXPECT_NEAR(geometry["coordinates"][1].get<double>(), 43 + 38 / 60.0 + 33.24 / 3600.0, one_metre);
}

// RFC 7946, section 11.2: more precision than about 10 cm (six or seven decimals) is of no use.
TEST(GeoJson, WritesSevenDecimalsAndNoNegativeZero) {
    const ScratchFolder scratch;
    const std::vector<geo::Feature> features{{core::PlanePoint{-0.00000004, 51.123456789}, {}},
                                             {core::PlanePoint{-0.5, -0.0}, {}},
                                             {core::PlanePoint{-179.99999999, 89.00000006}, {}},
                                             {core::PlanePoint{190.25, 10}, {}}};
    write_geojson(scratch / "points.geojson", layer_of(features, geo::GeometryKind::point, geo::wgs84()), {});
    const std::string text = text_of(scratch / "points.geojson");
    for (const char* position : {"[0,51.1234568]", "[-0.5,0]", "[-180,89.0000001]", "[-169.75,10]"})
        EXPECT_NE(text.find(position), std::string::npos) << position << " in " << text;
}

TEST(GeoJson, KeepsOrderNamesAndKinds) {
    geo::Layer layer =
        layer_of({{core::PlanePoint{100, 0}, {1, "T \"7\"", 0.1234567894, true, {}, core::List{1, "b"}}},
                  {core::PlanePoint{101, 0}, {2, std::string("caf\xE9"), -0.0, false, 3.0, nullptr}}},
                 geo::GeometryKind::point, geo::wgs84());
    layer.columns = {{"rank", geo::ColumnKind::whole},   {"tree", geo::ColumnKind::text},
                     {"score", geo::ColumnKind::number}, {"chosen", geo::ColumnKind::truth},
                     {"site", geo::ColumnKind::number},  {"reasons", geo::ColumnKind::nested}};
    const ScratchFolder scratch;
    write_geojson(scratch / "a.geojson", layer, {});
    const std::string text = text_of(scratch / "a.geojson");
    EXPECT_NE(
        text.find(
            R"({"rank":1,"tree":"T \"7\"","score":0.123456789,"chosen":true,"site":null,"reasons":[1,"b"]})"),
        std::string::npos)
        << text;
    EXPECT_NE(text.find("{\"rank\":2,\"tree\":\"caf\xEF\xBF\xBD\",\"score\":0,\"chosen\":false,\"site\":3,"
                        "\"reasons\":null}"),
              std::string::npos)
        << text;
    const json whole = json::parse(text);
    EXPECT_EQ(whole["type"], "FeatureCollection");
    EXPECT_EQ(whole["name"], "ranked_sites");
    EXPECT_FALSE(whole.contains("crs"));  // RFC 7946, section 4
}

// RFC 7946, section 3.2: an unlocated feature has the geometry null.
TEST(GeoJson, LeavesUnlocatedWhatHasNoPlace) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_TRUE(geometry_of(core::PlanePoint{nan, nan}, geo::GeometryKind::point).is_null());
    EXPECT_TRUE(geometry_of(geo::Line{{1, 2}}, geo::GeometryKind::line).is_null());
    EXPECT_TRUE(geometry_of(std::vector<geo::Polygon>{}, geo::GeometryKind::polygons).is_null());
}

TEST(GeoJson, WritesEveryFeatureOfManyBlocks) {
    geo::Layer layer;
    layer.name = "many";
    layer.crs = geo::wgs84();
    layer.columns = {{"tree", geo::ColumnKind::whole}};
    layer.size = 10'000;
    layer.feature = [](std::size_t i) {
        return geo::Feature{core::PlanePoint{static_cast<double>(i) / 100.0, 5.0}, {i}};
    };
    const json whole = geojson_of(layer);
    ASSERT_EQ(whole["features"].size(), 10'000U);
    for (std::size_t i = 0; i < 10'000; ++i) {
        ASSERT_EQ(whole["features"][i]["properties"]["tree"], i);
        ASSERT_DOUBLE_EQ(whole["features"][i]["geometry"]["coordinates"][0].get<double>(),
                         static_cast<double>(i) / 100.0);
    }
    layer.size = 0;
    EXPECT_EQ(geojson_of(layer)["features"], json::array());
}

// RFC 4180, section 2, rules 1 and 5 to 7.
TEST(Csv, QuotesAsRfc4180) {
    const ScratchFolder scratch;
    write_csv(scratch / "a.csv",
              {{"tree", "note"}, {{"T1", "a, b"}, {"T2", "say \"no\""}, {"T3", "two\nlines"}}});
    EXPECT_EQ(text_of(scratch / "a.csv"),
              "tree,note\r\nT1,\"a, b\"\r\nT2,\"say \"\"no\"\"\"\r\nT3,\"two\nlines\"\r\n");
}

// OWASP, "CSV Injection": cells that begin with = + - @, tab or carriage return are run as formulas.
TEST(Csv, DisarmsFormulas) {
    const ScratchFolder scratch;
    const std::vector<std::vector<std::string>> rows{{"=1+1"},  {"+44 20"}, {"-oak"}, {"@SUM(A1)"}, {"\tx"},
                                                     {"-12.5"}, {"+3"},     {"1e-5"}, {"a=b"},      {"-1e3"}};
    write_csv(scratch / "a.csv", {{"note"}, rows});
    EXPECT_EQ(
        text_of(scratch / "a.csv"),
        "note\r\n'=1+1\r\n'+44 20\r\n'-oak\r\n'@SUM(A1)\r\n'\tx\r\n-12.5\r\n+3\r\n1e-5\r\na=b\r\n-1e3\r\n");
}

// The same after blanks, with full-width signs, and where a program parts cells at semicolons or tabs.
TEST(Csv, DisarmsFormulasThatHide) {
    const ScratchFolder scratch;
    const std::vector<std::vector<std::string>> rows{{"  =1+1"},
                                                     {"\xC2\xA0@x"},
                                                     {"\xEF\xBC\x9D"
                                                      "1"},
                                                     {"\r=1"},
                                                     {"\n=1"},
                                                     {"oak; =1+1"},
                                                     {"oak\t=1"},
                                                     {"a;-5;b"},
                                                     {" -5"},
                                                     {"oak; ash"}};
    write_csv(scratch / "a.csv", {{"note"}, rows});
    EXPECT_EQ(text_of(scratch / "a.csv"),
              "note\r\n'  =1+1\r\n'\xC2\xA0@x\r\n'\xEF\xBC\x9D"
              "1\r\n\"'\r'=1\"\r\n\"'\n'=1\"\r\n"
              "oak;' =1+1\r\noak\t'=1\r\na;-5;b\r\n -5\r\noak; ash\r\n");
}

TEST(Csv, IsUtf8) {
    const ScratchFolder scratch;
    write_csv(scratch / "a.csv", {{"ch\xC3\xAAne"}, {{"caf\xE9"}}});
    EXPECT_EQ(text_of(scratch / "a.csv"), "ch\xC3\xAAne\r\ncaf\xEF\xBF\xBD\r\n");
}

TEST(Json, ParsesToTheSameValues) {
    const ScratchFolder scratch;
    write_json(
        scratch / "plan.json",
        core::Object{{"format", 1}, {"name", "Alder \"Reach\""}, {"share", 0.1}, {"files", core::List{}}});
    const std::string text = text_of(scratch / "plan.json");
    EXPECT_EQ(json::parse(text),
              json::parse(R"({"format":1,"name":"Alder \"Reach\"","share":0.1,"files":[]})"));
    EXPECT_LT(text.find("format"), text.find("name"));
    EXPECT_EQ(text.back(), '\n');
}

// /dev/full answers every write with "no space left on device" (Linux, full(4)).
TEST(TextWriters, TellOfAFullDisk) {
    try {
        write_json("/dev/full", core::Object{{"format", 1}});
        FAIL();
    } catch (const core::Error& error) {
        EXPECT_EQ(error.fault(), core::Fault::outputs);
        EXPECT_EQ(error.place().file, "full");
        EXPECT_NE(std::string(error.what()).find("No space left on device"), std::string::npos);
        EXPECT_NE(std::string(error.what()).find("disk may be full"), std::string::npos);
    }
}

// The same where nothing can be read back: what is written to /dev/null is gone.
TEST(TextWriters, TellOfWhatDoesNotReadBack) {
    EXPECT_THROW(write_json("/dev/null", core::Object{{"format", 1}}), core::Error);
    EXPECT_THROW(write_csv("/dev/null", {{"a"}, {}}), core::Error);
}

}  // namespace
}  // namespace roostward::io
