#include <gtest/gtest.h>

#include <filesystem>
#include <string>
#include <vector>

#include "io/reading_site.hpp"

namespace roostward::io {
namespace {

using core::Fault;
using testing::ReadingSite;
using testing::source_of;
namespace fs = std::filesystem;

void expect_stop(ReadingSite& site, Fault fault, const std::vector<std::string>& parts) {
    const ReadingSite::Stop stop = site.stop();
    EXPECT_EQ(stop.fault, fault) << stop.text;
    for (const std::string& part : parts)
        EXPECT_NE(stop.text.find(part), std::string::npos) << part << "\n" << stop.text;
}

TEST(ReadFailures, NothingSaysWhereAnimalsFlew) {
    ReadingSite site;
    site.file.passes.reset();
    site.file.trees.reset();
    expect_stop(site, Fault::site_file, {"give trees alone", "as passes, tracks or tallies"});
}

TEST(ReadFailures, NoPassInTheFile) {
    ReadingSite site;
    site.put("passes.csv", "time,lon,lat\n");
    expect_stop(site, Fault::inputs, {"passes.csv", "there is no pass in it"});
}

TEST(ReadFailures, FilesThatAreNone) {
    ReadingSite site;
    fs::create_directory(site.folder / "folder.csv");
    site.put("empty.csv", "");
    site.put("blank.csv", "\n\n");
    site.put("broken.geojson", "{\"type\":\"FeatureCollection\",\"features\":[");
    site.put("words.gpkg", "this is no database");
    struct Case {
        const char* file;
        const char* sentence;
    };
    for (const Case& c : {Case{"missing.csv", "no such file"}, Case{"folder.csv", "this is a folder"},
                          Case{"empty.csv", "empty (0 bytes)"}, Case{"blank.csv", "no header"},
                          Case{"broken.geojson", "cannot be read"}, Case{"words.gpkg", "cannot be read"}}) {
        site.file.passes = source_of("passes", site.folder / c.file);
        expect_stop(site, Fault::inputs, {c.file, "passes", c.sentence});
    }
}

TEST(ReadFailures, NoCoordinates) {
    ReadingSite site;
    site.put("passes.csv", "time,place\n2026-06-09T21:36,bridge\n");
    expect_stop(site, Fault::inputs, {"passes.csv", "lon and lat", "crs"});
}

TEST(ReadFailures, NoCrs) {
    ReadingSite site;
    site.put("passes.csv", "time,x,y\n2026-06-09T21:36,575300,5794500\n");
    expect_stop(site, Fault::inputs, {"passes.csv", "coordinate reference system", "crs = \"EPSG:"});
    site.file.passes->crs = "EPSG:32630";
    EXPECT_EQ(site.read().passes.rows.size(), 1U);
}

TEST(ReadFailures, PlanningCrsThatIsNoPlane) {
    ReadingSite site;
    for (const char* crs : {"EPSG:4326", "EPSG:2263", "EPSG:99999999"}) {
        site.file.crs = crs;
        expect_stop(site, Fault::site_file, {"site.crs", "in metres"});
    }
}

TEST(ReadFailures, SwappedCoordinates) {
    ReadingSite site;
    std::string text = "tree,lat,lon\n";
    for (int i = 0; i < 10; ++i)
        text += std::to_string(i) + ",-1.895" + std::to_string(i) + ",52.2982\n";
    site.put("trees.csv", text);
    site.file.trees = source_of("trees", site.folder / "trees.csv");
    expect_stop(site, Fault::inputs,
                {"trees.csv", "10 of 10 rows", "swapped coordinates", "swap the columns"});
}

TEST(ReadFailures, LayersThatLieApart) {
    ReadingSite site;
    site.put("trees.csv", "tree,lon,lat\n1,-1.8956,50.2982\n");
    site.file.trees = source_of("trees", site.folder / "trees.csv");
    (void)site.read();
    EXPECT_TRUE(site.found("layers do not overlap"));
}

// A country's roads are no mistake; a swapped layer of them is.
TEST(ReadFailures, FeaturesToKeepAwayFromMayReachFar) {
    ReadingSite site;
    const auto roads = [&](const std::string& near) {
        site.put("roads.geojson", R"({"type":"FeatureCollection","features":[
          {"type":"Feature","properties":{},
       "geometry":{"type":"LineString","coordinates":[[-5.0,50.1],[-5.1,50.2]]}},
          {"type":"Feature","properties":{},
       "geometry":{"type":"LineString","coordinates":[[0.1,57.1],[0.2,57.2]]}},
          {"type":"Feature","properties":{},"geometry":{"type":"LineString","coordinates":)" +
                                      near + "}}]}");
    };
    site.file.avoid = {
        {source_of("avoid[0]", site.folder / "roads.geojson"), core::Metres(20.0), "road", {}, {}}};
    roads("[[-1.8956,52.2982],[-1.8950,52.2990]]");
    EXPECT_EQ(site.read().avoid.at(0).shapes.size(), 3U);
    EXPECT_TRUE(site.findings.empty());
    site.put("roads.geojson", R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{},
      "geometry":{"type":"LineString","coordinates":[[52.2982,-1.8956],[52.2990,-1.8950]]}}]})");
    expect_stop(site, Fault::inputs, {"roads.geojson, layer avoid[0]", "swapped coordinates"});
}

TEST(ReadFailures, APlaneThatDoesNotReachTheSite) {
    ReadingSite site;
    site.put("passes.csv", "time,lon,lat\n2026-06-09T21:36:16,87.0,1.0\n");
    site.file.watches.reset();
    site.file.crs = "EPSG:32630";
    expect_stop(site, Fault::site_file, {"site.crs"});
}

TEST(ReadFailures, TimesWithoutAZone) {
    ReadingSite site;
    site.file.timezone.clear();
    expect_stop(site, Fault::site_file, {"time zone", "timezone = \"Europe/London\""});
    site.file.timezone = "London";
    expect_stop(site, Fault::site_file, {"site.timezone", "\"London\"", "Europe/London"});
}

TEST(ReadFailures, DayOrMonthFirst) {
    ReadingSite site;
    site.put("passes.csv", "date,time,lon,lat\n05/06/2026,21:36,-1.8956,52.2982\n");
    expect_stop(site, Fault::inputs, {"passes.csv", "05/06/2026", "date_order = \"dmy\""});
    site.file.passes->date_order = "mdy";
    EXPECT_EQ(core::to_text(site.read().passes.rows[0].evening), "2026-05-06");
    site.file.passes->date_order.clear();
    site.put("passes.csv",
             "date,time,lon,lat\n05/06/2026,21:36,-1.8956,52.2982\n13/06/2026,21:36,-1.8957,52.2982\n");
    EXPECT_EQ(core::to_text(site.read().passes.rows[0].evening), "2026-06-05");
}

TEST(ReadFailures, FindingsMadeUntilThenAreKept) {
    ReadingSite site;
    site.put("passes.csv", "time,lon,lat\n2026-06-09T21:36,0,0\n");
    expect_stop(site, Fault::inputs, {"1 of 1 rows", "coordinates (0, 0)"});
    EXPECT_TRUE(site.found("coordinates (0, 0)"));
}

}  // namespace
}  // namespace roostward::io
