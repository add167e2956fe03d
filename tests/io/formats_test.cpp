#include <gdal.h>
#include <gtest/gtest.h>
#include <ogr_api.h>
#include <ogr_srs_api.h>

#include <algorithm>
#include <memory>
#include <string>
#include <vector>

#include "io/reading_site.hpp"

namespace roostward::io {
namespace {

using testing::ReadingSite;
using testing::source_of;
namespace fs = std::filesystem;

struct Closer {
    void operator()(void* dataset) const { GDALClose(dataset); }
};
using Dataset = std::unique_ptr<void, Closer>;

struct FiveTrees {
    const char* id;
    double lon, lat, dbh, height;
    const char* condition;
    const char* inspected;
};
// Names no longer than ten letters, as Shapefile wants them.
constexpr FiveTrees five[] = {{"A1", -1.8956, 52.2982, 35.0, 12.5, "good", "2025-05-01"},
                              {"A2", -1.8957, 52.2983, 62.5, 18.0, "fair", "2024-11-30"},
                              {"B1", -1.8958, 52.2984, 0.0, 9.25, "poor", "2023-01-02"},
                              {"B2", -1.8959, 52.2985, 110.0, 21.0, "dead", "2025-06-30"},
                              {"C1", -1.8960, 52.2986, 28.0, 0.0, "good", "2025-07-01"}};

void add_field(OGRLayerH layer, const char* name, OGRFieldType type) {
    OGRFieldDefnH field = OGR_Fld_Create(name, type);
    ASSERT_EQ(OGR_L_CreateField(layer, field, 1), OGRERR_NONE);
    OGR_Fld_Destroy(field);
}

/// The five trees as GDAL's own driver writes them.
void write_trees(const char* driver, const fs::path& file, int epsg = 4326) {
    GDALAllRegister();
    const Dataset dataset(
        GDALCreate(GDALGetDriverByName(driver), file.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    ASSERT_TRUE(dataset);
    OGRSpatialReferenceH wgs84 = OSRNewSpatialReference(nullptr);
    OSRImportFromEPSG(wgs84, 4326);
    OSRSetAxisMappingStrategy(wgs84, OAMS_TRADITIONAL_GIS_ORDER);
    OGRSpatialReferenceH target = OSRNewSpatialReference(nullptr);
    OSRImportFromEPSG(target, epsg);
    OSRSetAxisMappingStrategy(target, OAMS_TRADITIONAL_GIS_ORDER);
    OGRLayerH layer = GDALDatasetCreateLayer(dataset.get(), "trees", target, wkbPoint, nullptr);
    add_field(layer, "tree", OFTString);
    add_field(layer, "dbh_cm", OFTReal);
    add_field(layer, "height_m", OFTReal);
    add_field(layer, "condition", OFTString);
    add_field(layer, "inspected", OFTDate);
    OGRCoordinateTransformationH way = OCTNewCoordinateTransformation(wgs84, target);
    for (const FiveTrees& tree : five) {
        OGRFeatureH feature = OGR_F_Create(OGR_L_GetLayerDefn(layer));
        OGR_F_SetFieldString(feature, 0, tree.id);
        OGR_F_SetFieldDouble(feature, 1, tree.dbh);
        OGR_F_SetFieldDouble(feature, 2, tree.height);
        OGR_F_SetFieldString(feature, 3, tree.condition);
        const std::string date = tree.inspected;
        OGR_F_SetFieldDateTime(feature, 4, std::stoi(date.substr(0, 4)), std::stoi(date.substr(5, 2)),
                               std::stoi(date.substr(8, 2)), 0, 0, 0, 0);
        OGRGeometryH point = OGR_G_CreateGeometry(wkbPoint);
        double x = tree.lon, y = tree.lat;
        OCTTransform(way, 1, &x, &y, nullptr);
        OGR_G_SetPoint_2D(point, 0, x, y);
        OGR_F_SetGeometryDirectly(feature, point);
        ASSERT_EQ(OGR_L_CreateFeature(layer, feature), OGRERR_NONE);
        OGR_F_Destroy(feature);
    }
    OCTDestroyCoordinateTransformation(way);
    OSRDestroySpatialReference(wgs84);
    OSRDestroySpatialReference(target);
}

std::string csv_of_trees() {
    std::string text = "tree,lon,lat,dbh_cm,height_m,condition,inspected\n";
    for (const FiveTrees& t : five) {
        text += std::string(t.id) + "," + std::to_string(t.lon) + "," + std::to_string(t.lat) + "," +
                std::to_string(t.dbh) + "," + std::to_string(t.height) + "," + t.condition + "," +
                t.inspected + "\n";
    }
    return text;
}

void expect_the_five(const siting::Inputs& inputs, const siting::Inputs& reference, const std::string& what) {
    ASSERT_EQ(inputs.trees.rows.size(), 5U) << what;
    for (std::size_t i = 0; i < 5; ++i) {
        const trees::Tree& tree = inputs.trees.rows[i];
        const trees::Tree& same = reference.trees.rows[i];
        EXPECT_EQ(tree.id, five[i].id) << what;
        EXPECT_EQ(tree.dbh, same.dbh) << what << " " << tree.id;
        EXPECT_EQ(tree.dbh.has_value(), five[i].dbh > 0.0);
        EXPECT_EQ(tree.height, same.height) << what << " " << tree.id;
        EXPECT_EQ(tree.condition, same.condition) << what;
        EXPECT_EQ(core::to_text(*tree.inspected), five[i].inspected) << what;
        EXPECT_LE(core::distance(tree.stem, same.stem).value(), 2e-4) << what << " " << tree.id;
    }
    EXPECT_TRUE(inputs.trees.columns.has(trees::TreeField::dbh));
    EXPECT_FALSE(inputs.trees.columns.has(trees::TreeField::hazard));
}

TEST(Formats, AllGiveTheSameTrees) {
    ReadingSite site;
    site.put("trees.csv", csv_of_trees());
    site.file.trees = source_of("trees", site.folder / "trees.csv");
    const siting::Inputs reference = site.read();
    expect_the_five(reference, reference, "CSV");
    struct Format {
        const char* driver;
        const char* file;
    };
    for (const Format& format : {Format{"GeoJSON", "trees.geojson"}, Format{"GPKG", "trees.gpkg"},
                                 Format{"ESRI Shapefile", "trees.shp"}, Format{"FlatGeobuf", "trees.fgb"}}) {
        write_trees(format.driver, site.folder / format.file);
        site.file.trees = source_of("trees", site.folder / format.file);
        // FlatGeobuf orders its features by place unless told otherwise, so the rows are compared by
        // identifier.
        siting::Inputs inputs = site.read();
        std::sort(inputs.trees.rows.begin(), inputs.trees.rows.end(),
                  [](const auto& a, const auto& b) { return a.id < b.id; });
        expect_the_five(inputs, reference, format.driver);
        EXPECT_TRUE(site.findings.empty()) << format.driver;
    }
}

TEST(Formats, OtherSystemsComeIntoThePlane) {
    ReadingSite site;
    site.put("trees.csv", csv_of_trees());
    site.file.trees = source_of("trees", site.folder / "trees.csv");
    const siting::Inputs reference = site.read();
    EXPECT_EQ(reference.planning_crs.definition, "EPSG:32630");
    for (const int epsg : {32630, 32631, 3857}) {
        const std::string file = "trees_" + std::to_string(epsg) + ".gpkg";
        write_trees("GPKG", site.folder / file, epsg);
        site.file.trees = source_of("trees", site.folder / file);
        const siting::Inputs inputs = site.read();
        expect_the_five(inputs, reference, file);
        EXPECT_EQ(inputs.files.back().crs, "EPSG:" + std::to_string(epsg));
        EXPECT_EQ(inputs.files.back().operation.empty(), epsg == 32630);
    }
}

TEST(Formats, OnlyComparesTextAndNumbers) {
    ReadingSite site;
    site.put("trees.csv", csv_of_trees());
    write_trees("GeoJSON", site.folder / "trees.geojson");
    for (const char* file : {"trees.csv", "trees.geojson"}) {
        site.file.trees = source_of("trees", site.folder / file);
        site.file.trees->only = "condition = 'good' AND dbh_cm >= 30";
        const siting::Inputs inputs = site.read();
        ASSERT_EQ(inputs.trees.rows.size(), 1U) << file;
        EXPECT_EQ(inputs.trees.rows[0].id, "A1");
        site.file.trees->only = "dbh_cm > 100";
        EXPECT_EQ(site.read().trees.rows.at(0).id, "B2") << file;
        EXPECT_EQ(site.read().trees.read, 1U);
        site.file.trees->only = "species = 'oak'";
        const ReadingSite::Stop stop = site.stop();
        EXPECT_EQ(stop.fault, core::Fault::inputs);
        EXPECT_NE(stop.text.find("height_m"), std::string::npos) << stop.text;
    }
}

TEST(Formats, AWrongLayerNameListsTheLayers) {
    ReadingSite site;
    write_trees("GPKG", site.folder / "trees.gpkg");
    site.file.trees = source_of("trees", site.folder / "trees.gpkg");
    site.file.trees->layer = "street_trees";
    const ReadingSite::Stop stop = site.stop();
    EXPECT_EQ(stop.fault, core::Fault::inputs);
    EXPECT_NE(stop.text.find("there is no layer \"street_trees\". The layers are: trees."), std::string::npos)
        << stop.text;
}

// IANA time zone database: Europe/London is an hour ahead of UTC in June.
TEST(Formats, TracksAndTheirTimesAreRead) {
    ReadingSite site;
    site.put("tracks.geojson", R"({"type":"FeatureCollection","features":[
      {"type":"Feature","properties":{"time":"2026-06-09T21:40:00","count":2,"watch":"avenue"},
       "geometry":{"type":"LineString","coordinates":[[-1.8956,52.2982,3],[-1.8950,52.2982,3]]}},
      {"type":"Feature","properties":{"time":"2026-06-09T21:41:00Z"},
       "geometry":{"type":"MultiLineString","coordinates":[[[-1.8956,52.2982],[-1.8950,52.2983]]]}},
      {"type":"Feature","properties":{"time":"2026-06-09T21:42:00"},
       "geometry":{"type":"MultiLineString",
       "coordinates":[[[-1.89,52.29],[-1.88,52.29]],[[-1.87,52.29],[-1.86,52.29]]]}},
      {"type":"Feature","properties":{"time":"2026-06-09T21:43:00"},"geometry":null},
      {"type":"Feature","properties":{"time":"2026-06-09T21:44:00"},
       "geometry":{"type":"Point","coordinates":[-1.89,52.29]}},
      {"type":"Feature","properties":{"time":"2026-06-09T21:45:00"},
       "geometry":{"type":"LineString","coordinates":[[-1.89,52.29],[-1.89,52.29]]}}]})");
    site.file.tracks = source_of("tracks", site.folder / "tracks.geojson");
    site.file.max_bad_share = 0.7;
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    ASSERT_EQ(inputs.tracks.rows.size(), 2U);
    EXPECT_EQ(core::to_text(*inputs.tracks.rows[0].time), "2026-06-09T20:40:00Z");
    EXPECT_EQ(core::to_text(*inputs.tracks.rows[1].time), "2026-06-09T21:41:00Z");
    EXPECT_EQ(inputs.tracks.rows[0].count, 2.0);
    EXPECT_EQ(inputs.tracks.rows[0].watch, "avenue");
    EXPECT_EQ(inputs.tracks.rows[0].path.size(), 2U);
    EXPECT_TRUE(site.found("not a line") && site.found("empty geometry") &&
                site.found("line without length"));
}

TEST(Formats, AreasAreRepairedAndOthersSetAside) {
    ReadingSite site;
    site.put("area.geojson", R"({"type":"FeatureCollection","features":[
      {"type":"Feature","properties":{},
       "geometry":{"type":"Polygon",
       "coordinates":[[[-1.90,52.29],[-1.89,52.30],[-1.89,52.29],[-1.90,52.30],[-1.90,52.29]]]}},
      {"type":"Feature","properties":{},
       "geometry":{"type":"LineString","coordinates":[[-1.90,52.29],[-1.89,52.30]]}}]})");
    site.file.allowed_area = source_of("allowed_area", site.folder / "area.geojson");
    site.file.max_bad_share = 0.5;
    const siting::Inputs inputs = site.read();
    testing::expect_nothing_lost(inputs, site.findings);
    EXPECT_TRUE(site.found("invalid polygon") && site.found("not a polygon"));
    EXPECT_EQ(inputs.allowed_area.size(), 2U);  // a bow tie is two triangles
}

TEST(Formats, TreesTellWhoLooksAfterTheirBoxes) {
    for (const std::string column : {"looked_after_by", "Caretaker"}) {
        ReadingSite site;
        site.put("trees.csv",
                 "tree,lon,lat," + column + "\n1,-1.8956,52.2982,the school\n2,-1.8957,52.2983,\n");
        site.file.trees = source_of("trees", site.folder / "trees.csv");
        const siting::Inputs inputs = site.read();
        EXPECT_EQ(inputs.trees.rows.at(0).looked_after_by, "the school") << column;
        EXPECT_EQ(inputs.trees.rows.at(1).looked_after_by, "") << column;
        EXPECT_TRUE(inputs.trees.columns.has(trees::TreeField::looked_after_by)) << column;
    }
}

}  // namespace
}  // namespace roostward::io
