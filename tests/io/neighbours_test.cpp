#include <gtest/gtest.h>

#include "io/reading_site.hpp"

namespace roostward::io {
namespace {

using testing::ReadingSite;

TEST(Lamps, AreReadWithTheirUnits) {
    ReadingSite site;
    site.put("lamps.csv",
             "lon,lat,lumens,lux_at_10m,height (ft)\n-1.8963,52.2979,4000,,20\n-1.8960,52.2979,,12.5,\n"
             "-1.8961,52.2979,0,0,0\n-1.8962,52.2979,bright,,5\n,52.2979,,,\n");
    site.file.max_bad_share = 0.9;
    site.file.lamps = testing::source_of("lamps", site.folder / "lamps.csv");
    site.file.lamps->fields["height_m"] = {"height (ft)", "ft", {}, {}};
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    const auto& lamps = inputs.lamps.rows;
    ASSERT_EQ(lamps.size(), 4U);
    EXPECT_EQ(lamps[0].lumens, trees::Lumens(4000));
    EXPECT_FALSE(lamps[0].lux_at_10m);
    EXPECT_DOUBLE_EQ(lamps[0].height->value(), 6.096);
    EXPECT_EQ(lamps[1].lux_at_10m, trees::Lux(12.5));
    EXPECT_FALSE(lamps[2].lumens || lamps[2].lux_at_10m || lamps[2].height) << "0 means unknown";
    EXPECT_FALSE(lamps[3].lumens);
    EXPECT_TRUE(site.found("not a number"));
    EXPECT_GT(lamps[0].position.northing, 5e6) << "in the planning plane";
}

TEST(Roosts, AreReadWithDateAndCount) {
    ReadingSite site;
    site.put("roosts.csv",
             "roost,lon,lat,date,count\noak,-1.8963,52.2979,2026-06-09,4\nelm,-1.8960,52.2979,,\n");
    site.file.roosts = testing::source_of("roosts", site.folder / "roosts.csv");
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    const auto& roosts = inputs.roosts.rows;
    ASSERT_EQ(roosts.size(), 2U);
    EXPECT_EQ(roosts[0].count, 4.0);
    EXPECT_EQ(core::to_text(*roosts[0].date), "2026-06-09");
    EXPECT_EQ(roosts[0].row, 2U);
    EXPECT_FALSE(roosts[1].count || roosts[1].date);
}

void with_a_tree(ReadingSite& site) {
    site.put("trees.csv", "tree,lon,lat,dbh_cm\nT1,-1.8961,52.2980,40\n");
    site.file.trees = testing::source_of("trees", site.folder / "trees.csv");
}

TEST(Boxes, HangWhereTheyOrTheirTreesStand) {
    ReadingSite site;
    site.put("boxes.csv",
             "box,tree,lon,lat,design,hung,facing,mount_height_m,status,animal\n"
             "1,,-1.8963,52.2979,wedge,2025-10-04,SSE,4.5,up,small bats\n"
             "2,T1,,,wedge,2025-10-04,90,4,,\n"
             "3,T1,,,,,,,,\n"
             "4,T999,,,,2025-10-04,,,up,\n"
             "5,T1,,,,2025-10-04,sideways,,lost,\n"
             "6,,,,,2025-10-04,,,up,\n"
             "7,T1,,,,2024-10-04,,,tree felled,barn owl\n");
    with_a_tree(site);
    site.file.max_bad_share = 0.9;
    site.file.boxes = testing::source_of("boxes", site.folder / "boxes.csv");
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    const auto& boxes = inputs.boxes.rows;
    ASSERT_EQ(boxes.size(), 5U);
    EXPECT_EQ(boxes[0].id, "1");
    EXPECT_EQ(boxes[0].facing, core::Degrees(157.5));
    EXPECT_EQ(boxes[0].mount_height, core::Metres(4.5));
    EXPECT_EQ(core::to_text(*boxes[0].hung), "2025-10-04");
    EXPECT_TRUE(boxes[0].hangs());
    EXPECT_EQ(boxes[1].position, inputs.trees.rows.front().stem) << "by its tree";
    EXPECT_TRUE(boxes[1].hangs()) << "a date is enough";
    EXPECT_EQ(boxes[2].status, trees::BoxStatus::not_hung);
    EXPECT_TRUE(boxes[3].hangs());
    EXPECT_EQ(boxes[4].status, trees::BoxStatus::tree_felled);
    EXPECT_EQ(boxes[4].animal, "barn owl");
    EXPECT_TRUE(site.found("unknown tree"));
    EXPECT_TRUE(site.found("unknown status"));
    EXPECT_TRUE(site.found("no coordinates"));
}

// As the plan writes it; the species is the tree's.
TEST(Boxes, ReadBackTheListOfBoxesToHang) {
    ReadingSite site;
    site.put("boxes.csv",
             "box,site,tree,lon,lat,species,mount_height_m,facing_deg,facing,design,hung,status,note\r\n"
             "1,1,T1,-1.8965616,52.2996339,Quercus robur,4.5,157.5,SSE,wedge,2026-10-01,,\r\n"
             "2,1,T1,-1.8965616,52.2996339,Quercus robur,4.5,67.5,ENE,,,,\r\n");
    site.file.boxes = testing::source_of("boxes", site.folder / "boxes.csv");
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    ASSERT_EQ(inputs.boxes.rows.size(), 2U);
    EXPECT_TRUE(inputs.boxes.rows[0].hangs());
    EXPECT_FALSE(inputs.boxes.rows[1].hangs()) << "nobody wrote that it was hung";
    EXPECT_EQ(inputs.boxes.rows[0].facing, core::Degrees(157.5));
    EXPECT_EQ(inputs.boxes.rows[0].animal, "");
}

TEST(Boxes, NeedNoCoordinatesOfTheirOwn) {
    ReadingSite site;
    site.put("boxes.csv", "box,tree\n1,T1\n2,\n");
    with_a_tree(site);
    site.file.max_bad_share = 0.9;
    site.file.boxes = testing::source_of("boxes", site.folder / "boxes.csv");
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    ASSERT_EQ(inputs.boxes.rows.size(), 1U);
    EXPECT_TRUE(inputs.boxes.rows[0].hangs()) << "a plain list of boxes is of those that hang";
    EXPECT_TRUE(site.found("no place"));
}

TEST(RoadsAndWater, AreReadAsFeatures) {
    ReadingSite site;
    site.put("roads.geojson",
             R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{},"geometry":)"
             R"({"type":"LineString","coordinates":[[-1.8963,52.2979],[-1.8960,52.2979]]}}]})");
    site.put("water.geojson",
             R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{},"geometry":)"
             R"({"type":"Polygon","coordinates":[[[-1.8963,52.2979],[-1.896,52.2979],[-1.896,52.298],)"
             R"([-1.8963,52.2979]]]}}]})");
    site.file.roads = testing::source_of("roads", site.folder / "roads.geojson");
    site.file.water = testing::source_of("water", site.folder / "water.geojson");
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    EXPECT_EQ(inputs.roads.shapes.size(), 1U);
    EXPECT_EQ(inputs.water.shapes.size(), 1U);
    EXPECT_GT(inputs.roads.shapes[0].lines[0][0].northing, 5e6) << "in the planning plane";
    EXPECT_EQ(inputs.water.shapes[0].polygons.size(), 1U);
}

}  // namespace
}  // namespace roostward::io
