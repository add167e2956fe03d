// Where people may stand: paths, stations and ground to keep out of.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "io/reading_site.hpp"

namespace roostward::io {
namespace {

using testing::ReadingSite;
using testing::source_of;

std::string feature(const std::string& properties, const std::string& type, const std::string& coordinates) {
    return R"({"type":"Feature","properties":{)" + properties + R"(},"geometry":{"type":")" + type +
           R"(","coordinates":)" + coordinates + "}}";
}

std::string collection(const std::string& features) {
    return R"({"type":"FeatureCollection","features":[)" + features + "]}";
}

const std::string along = "[[-1.8956,52.2982],[-1.8950,52.2984],[-1.8940,52.2990]]";
const std::string aside = "[[-1.8960,52.2980],[-1.8962,52.2985]]";
const std::string yard = "[[[-1.8956,52.2982],[-1.8950,52.2982],[-1.8950,52.2986],[-1.8956,52.2982]]]";

struct PlacesSite : ReadingSite {
    PlacesSite() { file.max_bad_share = 1.0; }
    void paths(const std::string& features) {
        put("paths.geojson", collection(features));
        file.paths = source_of("paths", folder / "paths.geojson");
    }
    void keep_out(const std::string& features) {
        put("keep_out.geojson", collection(features));
        file.keep_out = source_of("keep_out", folder / "keep_out.geojson");
    }
    void stations(const std::string& name, const std::string& text) {
        put(name, text);
        file.stations = source_of("stations", folder / name);
    }
};

const core::RowCount& count_of(const siting::Inputs& inputs, const std::string& layer) {
    return *std::ranges::find(inputs.counts, layer, &core::RowCount::layer);
}

TEST(Paths, AreLinesInThePlanningPlane) {
    PlacesSite site;
    site.paths(feature(R"("name":"creek path")", "LineString", along) + "," +
               feature("", "MultiLineString", "[" + along + "," + aside + "]"));
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    ASSERT_EQ(inputs.paths.size(), 3U);
    EXPECT_EQ(count_of(inputs, "paths").used, 2U);
    // The first point is where the one pass of the site lies.
    const auto starts_at_the_pass = [&](const geo::Line& line) {
        return core::distance(line.front(), inputs.passes.rows[0].position) < core::Metres(0.001);
    };
    EXPECT_EQ(std::ranges::count_if(inputs.paths, starts_at_the_pass), 2);
}

TEST(Paths, WhatIsNoLineIsSetAside) {
    PlacesSite site;
    site.paths(feature("", "LineString", along) + "," + feature("", "Point", "[-1.8956,52.2982]") + "," +
               feature("", "Polygon", yard) + "," +
               feature("", "LineString", "[[-1.8956,52.2982],[-1.8956,52.2982]]") +
               R"(,{"type":"Feature","properties":{},"geometry":null})");
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    EXPECT_EQ(inputs.paths.size(), 1U);
    EXPECT_EQ(count_of(inputs, "paths").read, 5U);
    for (const char* kind : {"not a line", "line without length"})
        EXPECT_TRUE(site.found(kind)) << kind;
}

TEST(Paths, AnyOrderOfRowsIsTheSame) {
    const std::string one = feature("", "LineString", along), other = feature("", "LineString", aside);
    PlacesSite site;
    site.paths(one + "," + other);
    const auto paths = site.read().paths;
    site.paths(other + "," + one);
    EXPECT_EQ(site.read().paths, paths);
}

// A walk recorded by a phone is a path, too.
TEST(Paths, MayBeTracksOfAGpxFile) {
    PlacesSite site;
    site.put(
        "walk.gpx",
        R"(<?xml version="1.0"?><gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1">)"
        R"(<trk><name>walk</name><trkseg><trkpt lat="52.2982" lon="-1.8956"/>)"
        R"(<trkpt lat="52.2984" lon="-1.8950"/></trkseg></trk></gpx>)");
    site.file.paths = source_of("paths", site.folder / "walk.gpx");
    site.file.paths->layer = "tracks";
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    ASSERT_EQ(inputs.paths.size(), 1U);
    EXPECT_EQ(inputs.paths[0].size(), 2U);
}

TEST(Stations, AreNamedPoints) {
    PlacesSite site;
    site.stations("stations.csv",
                  "name,lon,lat\nbridge,-1.8956,52.2982\n,-1.8950,52.2984\noak,-1.8940,52.2990\n");
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    ASSERT_EQ(inputs.stations.rows.size(), 3U);
    const auto bridge = std::ranges::find(inputs.stations.rows, "bridge", &survey::Station::name);
    ASSERT_NE(bridge, inputs.stations.rows.end());
    EXPECT_LT(core::distance(bridge->position, inputs.passes.rows[0].position), core::Metres(0.001));
    EXPECT_EQ(std::ranges::count(inputs.stations.rows, "", &survey::Station::name), 1);
}

// As others write them: another word for the name, a grid reference, a layer of points, marks of a phone.
TEST(Stations, ComeInManyShapes) {
    PlacesSite site;
    site.stations("label.csv", "label,longitude,latitude\nbridge,\"-1,8956\",\"52,2982\"\n");
    EXPECT_EQ(site.read().stations.rows.at(0).name, "bridge");
    site.stations("grid.csv", "station,grid_ref\nbridge,SP0720888900\n");
    EXPECT_EQ(site.read().stations.rows.at(0).name, "bridge");
    site.stations("points.geojson", collection(feature(R"("name":"bridge")", "Point", "[-1.8956,52.2982]")));
    EXPECT_EQ(site.read().stations.rows.at(0).name, "bridge");
    site.stations(
        "marks.gpx",
        R"(<?xml version="1.0"?><gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1">)"
        R"(<wpt lat="52.2982" lon="-1.8956"><name>bridge</name></wpt></gpx>)");
    site.file.stations->layer = "waypoints";
    EXPECT_EQ(site.read().stations.rows.at(0).name, "bridge");
}

TEST(Stations, BadRowsAreToldAndCounted) {
    PlacesSite site;
    site.stations("stations.csv",
                  "name,lon,lat\nbridge,-1.8956,52.2982\nbridge,-1.8956,52.2982\nBridge,-1.8950,52.2984\n"
                  "swapped,52.2982,-1.8956\nzero,0,0\nnowhere,,\nfar,10.5,52.3\n");
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    EXPECT_EQ(inputs.stations.rows.size(), 2U);
    const core::RowCount& count = count_of(inputs, "stations");
    EXPECT_EQ(count.read, 7U);
    EXPECT_EQ(count.apart, 1U);
    EXPECT_EQ(count.set_aside, 4U);
    for (const char* kind : {"the same station twice", "name used twice", "swapped coordinates"})
        EXPECT_TRUE(site.found(kind)) << kind;
}

TEST(KeepOut, IsPolygonsMendedWhereTheyCrossThemselves) {
    PlacesSite site;
    site.keep_out(feature("", "Polygon", yard) + "," + feature("", "LineString", along) + "," +
                  feature("", "Polygon",
                          "[[[-1.8956,52.2982],[-1.8950,52.2986],[-1.8950,52.2982],[-1.8956,52.2986],"
                          "[-1.8956,52.2982]]]"));
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    EXPECT_EQ(inputs.keep_out.size(), 3U) << "the bow is two triangles";
    EXPECT_EQ(count_of(inputs, "keep_out").set_aside, 1U);
    EXPECT_TRUE(site.found("not a polygon"));
    EXPECT_TRUE(site.found("invalid polygon"));
    EXPECT_EQ(inputs.allowed_area.size(), 0U);
}

}  // namespace
}  // namespace roostward::io
