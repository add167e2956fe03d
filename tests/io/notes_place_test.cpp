#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "io/reading_site.hpp"

namespace roostward::io {
namespace {

using core::PlanePoint;
using testing::ReadingSite;

/// One tree, two stations, and the squares C4 (25 m) and D4 (100 m) east of the bridge.
struct Notes : ReadingSite {
    Notes() {
        put("watches.csv",
            "watch,lon,lat,date,start,end,farthest_seen_m\n"
            "bridge,-1.8963,52.2979,2026-06-09,21:25,23:00,70\n"
            "avenue,-1.8960,52.2985,2026-06-09,22:50,23:30,70\n"
            "roaming,-1.8960,52.2985,2026-06-09,21:25,22:00,70\n"
            "roaming,-1.8960,52.2995,2026-06-09,22:05,22:30,70\n");
        put("trees.csv", "tree,lon,lat,dbh_cm\n0155,-1.8961,52.2980,40\n0156,-1.8959,52.2980,40\n");
        file.trees = testing::source_of("trees", folder / "trees.csv");
        file.crs = "EPSG:32630";
        const geo::Transform to_plane(geo::wgs84(), {file.crs});
        bridge = to_plane({-1.8963, 52.2979});
        tree = to_plane({-1.8961, 52.2980});
        put("squares.geojson", R"({"type":"FeatureCollection","features":[)" + square("C4", 0.0, 25.0) + "," +
                                   square("D4", 25.0, 100.0) + "," + square("c-4", 500.0, 25.0) + "]}");
        file.max_bad_share = 1.0;
    }

    [[nodiscard]] std::string square(const std::string& name, double east, double side) const {
        const double x = bridge.easting + east, y = bridge.northing;
        return fmt::format(
            R"({{"type":"Feature","properties":{{"square":"{}"}},"geometry":{{"type":"Polygon","coordinates":)"
            R"([[[{},{}],[{},{}],[{},{}],[{},{}],[{},{}]]]}}}})",
            name, x, y, x + side, y, x + side, y + side, x, y + side, x, y);
    }

    void with_squares() {
        file.squares = testing::source_of("squares", folder / "squares.geojson");
        file.squares->crs = file.crs;
    }

    std::vector<survey::Pass> passes(const std::string& text) {
        put("passes.csv", text);
        siting::Inputs inputs = read();
        testing::expect_nothing_lost(inputs, findings);
        return inputs.passes.rows;
    }

    [[nodiscard]] const core::Finding& finding_of(std::size_t row) const {
        static const core::Finding none;
        for (const core::Finding& f : findings)
            if (f.place.layer == "passes" && f.place.row == row) return f;
        return none;
    }

    PlanePoint bridge, tree;
};

core::GeographicPoint on_globe(PlanePoint p) {
    const PlanePoint degrees = geo::Transform({"EPSG:32630"}, geo::wgs84())(p);
    return {core::Degrees(degrees.easting), core::Degrees(degrees.northing)};
}

// The way over the ellipsoid (Karney 2013) says where the pass lies from the station; the plane's scale is
// 0.9996 here. 22.5° either side of even words make 11.25°/√3; 20 % and 5° are our own defaults.
TEST(NotesPlaces, LieFromTheStationOfTheirWatch) {
    Notes notes;
    const auto passes = notes.passes(
        "date,time,watch,distance_m,direction,accuracy_m\n"
        "2026-06-09,21:46,bridge,40,ESE,\n"
        "2026-06-09,21:47,bridge,40 m,90,\n"
        "2026-06-09,21:48,bridge,100 ft,south,3\n"
        "2026-06-09,23:20,,0,,\n"
        "2026-06-09,22:55,,10,N,\n"
        "2026-06-09,21:46,brige,40,E,\n"
        "2026-06-09,21:46,bridge,40,,\n"
        "2026-06-09,21:46,bridge,a stone's throw,E,\n"
        "2026-06-09,21:46,bridge,3000,E,\n"
        "2026-06-09,22:10,roaming,10,E,\n"
        "2026-06-09,23:10,roaming,10,E,\n");
    ASSERT_EQ(passes.size(), 5U);
    const core::GeographicPoint station = on_globe(notes.bridge);
    EXPECT_NEAR(geo::geodesic_bearing(station, on_globe(passes[0].position)).value(), 112.5, 0.01);
    EXPECT_NEAR(geo::geodesic_bearing(station, on_globe(passes[1].position)).value(), 90.0, 0.01);
    EXPECT_NEAR(geo::geodesic_distance(station, on_globe(passes[1].position)).value(), 40.0, 0.02);
    EXPECT_NEAR(geo::geodesic_distance(station, on_globe(passes[2].position)).value(), 30.48, 0.02);
    EXPECT_NEAR(passes[0].accuracy.value(), 6.502, 0.001) << "√((8² + (40·6.495°)²)/2)";
    EXPECT_NEAR(passes[1].accuracy.value(), 6.172, 0.001) << "√((8² + (40·5°)²)/2)";
    EXPECT_EQ(passes[2].accuracy.value(), 3.0) << "as told";
    EXPECT_EQ(passes[3].row, 5U) << "only the avenue was watched then";
    EXPECT_EQ(passes[4].row, 11U);
    EXPECT_EQ(notes.finding_of(6).kind, "no station") << "two stations were watched then";
    EXPECT_EQ(notes.finding_of(7).kind, "unknown watch");
    EXPECT_NE(notes.finding_of(7).sentence.find("\"bridge\""), std::string::npos);
    EXPECT_EQ(notes.finding_of(8).kind, "no direction");
    EXPECT_EQ(notes.finding_of(9).kind, "not a number");
    EXPECT_EQ(notes.finding_of(10).kind, "impossible distance_m");
    EXPECT_EQ(notes.finding_of(12).kind, "no station") << "at several places, and at none at this time";
    EXPECT_TRUE(notes.found("accuracy was not told"));
}

// A place anywhere in a square has a standard deviation of side/√12 on each axis.
TEST(NotesPlaces, LieInTheMiddleOfTheirSquare) {
    Notes notes;
    notes.with_squares();
    const auto passes = notes.passes(
        "date,time,square,accuracy_m,lon,lat\n"
        "2026-06-09,21:46,C4,,,\n"
        "2026-06-09,21:47,c 4,10,,\n"
        "2026-06-09,21:48,D4,,,\n"
        "2026-06-09,21:49,D5,,,\n"
        "2026-06-09,21:50,D4,,-1.8956,52.2982\n"
        "2026-06-09,21:51,,,,\n");
    ASSERT_EQ(passes.size(), 4U);
    EXPECT_NEAR(passes[0].position.easting, notes.bridge.easting + 12.5, 1e-3);
    EXPECT_NEAR(passes[0].position.northing, notes.bridge.northing + 12.5, 1e-3);
    EXPECT_NEAR(passes[0].accuracy.value(), 7.2169, 1e-4);
    EXPECT_NEAR(passes[1].accuracy.value(), std::hypot(10.0, 7.2169), 1e-4);
    EXPECT_NEAR(passes[2].accuracy.value(), 28.8675, 1e-4);
    EXPECT_EQ(passes[3].row, 6U);
    EXPECT_EQ(passes[3].accuracy.value(), 0.0) << "coordinates come first";
    EXPECT_EQ(notes.finding_of(5).kind, "unknown square");
    EXPECT_NE(notes.finding_of(5).sentence.find("\"D4\""), std::string::npos);
    EXPECT_EQ(notes.finding_of(7).kind, "no coordinates");
    EXPECT_TRUE(notes.found("too coarse to choose between trees"));
    EXPECT_TRUE(notes.found("name used twice")) << "C4 and c-4 are one name";
}

TEST(NotesPlaces, NeedTheMapOfTheSquares) {
    Notes notes;
    EXPECT_TRUE(notes.passes("date,time,square\n2026-06-09,21:46,C4\n").empty());
    EXPECT_NE(notes.finding_of(2).sentence.find("squares = "), std::string::npos);
}

TEST(NotesPlaces, LieAtTheirTree) {
    Notes notes;
    const auto passes = notes.passes(
        "date,time,near_tree,accuracy_m\n"
        "2026-06-09,21:46,0155,\n2026-06-09,21:47,0155,2\n2026-06-09,21:48,0158,\n");
    ASSERT_EQ(passes.size(), 2U);
    EXPECT_EQ(passes[0].position, notes.tree);
    EXPECT_EQ(passes[0].accuracy.value(), 5.0) << "our own default";
    EXPECT_EQ(passes[1].accuracy.value(), 2.0);
    EXPECT_EQ(notes.finding_of(4).kind, "unknown tree");
    EXPECT_NE(notes.finding_of(4).sentence.find("\"0155\""), std::string::npos);
}

TEST(NotesPlaces, OfWhatARecorderHeardAreItsStation) {
    Notes notes;
    const auto passes = notes.passes("date,time,watch,place_of\n2026-06-09,21:46,bridge,recorder\n");
    ASSERT_EQ(passes.size(), 1U);
    EXPECT_EQ(passes[0].position, notes.bridge);
}

TEST(NotesPlaces, OfRoostsAreTheirTree) {
    Notes notes;
    notes.put("roosts.csv", "tree,count\n0155,4\nT9,2\n");
    notes.file.roosts = testing::source_of("roosts", notes.folder / "roosts.csv");
    const siting::Inputs inputs = notes.read();
    testing::expect_nothing_lost(inputs, notes.findings);
    ASSERT_EQ(inputs.roosts.rows.size(), 1U);
    EXPECT_EQ(inputs.roosts.rows[0].position, notes.tree);
}

TEST(NotesPlaces, OfWatchesMayBeTheirTree) {
    Notes notes;
    notes.put("watches.csv",
              "watch,near_tree,lon,lat,date,start,end,farthest_seen_m\n"
              "oak,0155,,,2026-06-09,21:25,23:00,70\n"
              "elm,0999,,,2026-06-09,21:25,23:00,70\n"
              "bridge,,-1.8963,52.2979,2026-06-09,21:25,23:00,70\n");
    const auto passes = notes.passes("time,watch,distance_m,direction\n21:46,oak,30,N\n");
    ASSERT_EQ(passes.size(), 1U);
    EXPECT_NEAR(core::distance(passes[0].position, notes.tree).value(), 30.0, 1e-6);
    EXPECT_EQ(core::to_text(passes[0].evening), "2026-06-09");
    EXPECT_TRUE(notes.found("unknown tree"));
}

// TG 51409 13177: Ordnance Survey, "A guide to coordinate systems in Great Britain". The watch stands 30 m
// from the middle of TG 5140 1317; PROJ carries the grid to WGS 84.
TEST(NotesPlaces, AreReadFromGridReferences) {
    Notes notes;
    notes.file.trees.reset();
    notes.file.crs = "EPSG:27700";
    notes.put(
        "watches.csv",
        "watch,grid_ref,date,start,end,farthest_seen_m\nsea wall,TG 51409 13207,2026-06-09,21:25,23:00,70\n");
    const auto passes = notes.passes(
        "date,time,grid_ref\n2026-06-09,21:46,TG 51409 "
        "13177\n2026-06-09,21:47,TG514131\n2026-06-09,21:48,TG51413\n"
        "2026-06-09,21:49,31U DT 1234 5678\n");
    ASSERT_EQ(passes.size(), 2U);
    EXPECT_NEAR(passes[0].position.easting, 651409.5, 0.01);
    EXPECT_NEAR(passes[0].position.northing, 313177.5, 0.01);
    EXPECT_NEAR(passes[0].accuracy.value(), 0.2887, 1e-4);
    EXPECT_NEAR(passes[1].accuracy.value(), 28.8675, 1e-4);
    EXPECT_EQ(notes.finding_of(3).kind, "too coarse to choose between trees");
    EXPECT_EQ(notes.finding_of(4).kind, "unknown grid reference");
    EXPECT_EQ(notes.finding_of(5).kind, "far outside the site");
}

TEST(NotesPlaces, OfTwoLettersAreBritishInBritainOnly) {
    Notes notes;
    notes.file.trees.reset();
    notes.file.crs = "auto";
    notes.file.timezone = "Europe/Berlin";
    notes.put("watches.csv",
              "watch,lon,lat,date,start,end,farthest_seen_m\nWehr,11.58,48.15,2026-06-09,21:25,23:00,70\n");
    const auto passes = notes.passes(
        "date,time,lon,lat,grid_ref\n2026-06-09,21:46,11.5801,48.1501,\n2026-06-09,21:47,,,SP 0631 7792\n");
    ASSERT_EQ(passes.size(), 1U);
    EXPECT_EQ(notes.finding_of(3).kind, "unknown grid reference");
}

}  // namespace
}  // namespace roostward::io
