// A layer may be several files, each in its own format, system and columns.
#include <gtest/gtest.h>

#include "io/reading_site.hpp"

namespace roostward {
namespace {

using testing::expect_nothing_lost;
using testing::ReadingSite;

void add_file(const ReadingSite& site, io::InputSource& source, const std::string& name) {
    source.further.push_back({name, (site.folder / name).string()});
}

TEST(SeveralFiles, AreOneLayer) {
    ReadingSite site;
    site.file.max_bad_share = 1.0;
    add_file(site, *site.file.passes, "saturday.geojson");
    add_file(site, *site.file.passes, "sunday.csv");
    // The same place, -1.8956 52.2982, in British national grid metres (EPSG:27700) by columns of its own.
    site.put("saturday.geojson",
             R"({"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"when":"2026-06-09T21:40:00","n":"several"},"geometry":{"type":"Point","coordinates":[-1.8956,52.2982]}},
{"type":"Feature","properties":{"when":"2026-06-09T21:41:00","n":2},"geometry":{"type":"Point","coordinates":[-1.8956,52.2982]}}]})");
    site.put(
        "sunday.csv",
        "date,time,watch,distance_m,direction\n2026-06-09,21:45,avenue,20,N\n2026-06-09,oops,avenue,20,N\n");
    const siting::Inputs inputs = site.read();
    ASSERT_EQ(inputs.passes.rows.size(), 3U);
    EXPECT_EQ(inputs.passes.file, "passes.csv, saturday.geojson, sunday.csv");
    expect_nothing_lost(inputs, site.findings);
    std::vector<std::string> told;
    for (const core::RowCount& count : inputs.counts)
        if (count.layer == "passes")
            told.push_back(count.file + " " + std::to_string(count.read) + " " + std::to_string(count.used));
    EXPECT_EQ(told, (std::vector<std::string>{"passes.csv 1 1", "saturday.geojson 2 1", "sunday.csv 2 1"}));
    const auto in_file = [&](const char* file) {
        return std::ranges::count_if(site.findings, [&](const core::Finding& f) {
            return f.severity == core::Severity::set_aside && f.place.file == file;
        });
    };
    EXPECT_EQ(in_file("saturday.geojson"), 1);
    EXPECT_EQ(in_file("sunday.csv"), 1);
    EXPECT_EQ(std::ranges::count(inputs.files, std::string("passes"), &siting::InputFile::role), 3);
}

TEST(SeveralFiles, MayLieInSystemsOfTheirOwn) {
    ReadingSite site;
    site.put("passes.csv", "time,grid_ref\n2026-06-09T21:36:16,SP0721266766\n");
    add_file(site, *site.file.passes, "more.geojson");
    site.put(
        "more.geojson",
        R"({"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::27700"}},"features":[
{"type":"Feature","properties":{"time":"2026-06-09T21:40:00"},"geometry":{"type":"Point","coordinates":[407212.5,266766.5]}}]})");
    const siting::Inputs inputs = site.read();
    ASSERT_EQ(inputs.passes.rows.size(), 2U);
    EXPECT_LT(core::distance(inputs.passes.rows[0].position, inputs.passes.rows[1].position),
              core::Metres(2.0));
}

TEST(SeveralFiles, TreesWithoutIdentifiersGetTheirFile) {
    ReadingSite site;
    site.file.trees = testing::source_of("trees", site.folder / "north.csv");
    add_file(site, *site.file.trees, "south.csv");
    site.put("north.csv", "tree,lon,lat,dbh_cm\nT1,-1.8956,52.2982,30\n,-1.8957,52.2982,30\n");
    site.put("south.csv",
             "tree,lon,lat,height_m\nT1,-1.8955,52.2982,30\n,-1.8958,52.2982,30\nT1,-1.8956,52.2982,\n");
    const siting::Inputs inputs = site.read();
    std::vector<std::string> names;
    for (const trees::Tree& tree : inputs.trees.rows)
        names.push_back(tree.id);
    EXPECT_EQ(names, (std::vector<std::string>{"T1", "north.csv 3", "T1#south.csv 2", "south.csv 3"}));
    EXPECT_TRUE(inputs.trees.columns.has(trees::TreeField::dbh));
    EXPECT_TRUE(inputs.trees.columns.has(trees::TreeField::height));
    expect_nothing_lost(inputs, site.findings);
}

TEST(SeveralFiles, WatchesMayBeNotesAndTracks) {
    ReadingSite site;
    add_file(site, *site.file.watches, "walk.gpx");
    site.put("walk.gpx",
             "<?xml version=\"1.0\"?><gpx version=\"1.1\" creator=\"t\" "
             "xmlns=\"http://www.topografix.com/GPX/1/1\"><trk>"
             "<trkseg><trkpt lat=\"52.2979\" lon=\"-1.8963\"><time>2026-06-10T20:30:00Z</time></trkpt>"
             "<trkpt lat=\"52.2989\" "
             "lon=\"-1.8963\"><time>2026-06-10T20:50:00Z</time></trkpt></trkseg></trk></gpx>");
    EXPECT_EQ(site.read().watches.rows.size(), 2U);
}

TEST(SeveralFiles, OneThatIsMissingIsNamed) {
    ReadingSite site;
    add_file(site, *site.file.passes, "lost.csv");
    EXPECT_NE(site.stop().text.find("lost.csv"), std::string::npos);
}

}  // namespace
}  // namespace roostward
