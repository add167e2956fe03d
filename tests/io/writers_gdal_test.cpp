#include <cpl_conv.h>
#include <gdal.h>
#include <gtest/gtest.h>
#include <ogr_api.h>
#include <ogr_srs_api.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <functional>
#include <memory>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "io/child_process.hpp"
#include "io/scratch_folder.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/writers.hpp"

namespace roostward::io {
namespace {

using testing::ScratchFolder;
using testing::text_of;
namespace fs = std::filesystem;

struct Closer {
    void operator()(void* dataset) const { GDALClose(dataset); }
};
using Dataset = std::unique_ptr<void, Closer>;

Dataset opened(const fs::path& file) {
    GDALAllRegister();
    return Dataset(GDALOpenEx(file.c_str(), GDAL_OF_READONLY, nullptr, nullptr, nullptr));
}

std::string epsg_of(OGRSpatialReferenceH reference) {
    return reference == nullptr ? "" : std::string("EPSG:") + OSRGetAuthorityCode(reference, nullptr);
}

const core::Instant noon{std::chrono::sys_days{std::chrono::year{2026} / 6 / 14} + std::chrono::hours{12}};

/// Trees as a layer of points; every third has no height.
geo::Layer trees(std::size_t count) {
    geo::Layer layer;
    layer.name = "ranked_sites";
    layer.crs = {"EPSG:32630"};
    layer.columns = {{"rank", geo::ColumnKind::whole},
                     {"tree", geo::ColumnKind::text},
                     {"height_m", geo::ColumnKind::number},
                     {"chosen", geo::ColumnKind::truth},
                     {"reasons", geo::ColumnKind::nested}};
    layer.size = count;
    layer.feature = [](std::size_t i) {
        const auto n = static_cast<double>(i);
        const core::Document height = i % 3 == 2 ? core::Document() : core::Document(10.0 + n / 7.0);
        return geo::Feature{core::PlanePoint{500'000.123456 + n, 5'600'000.5},
                            {i + 1, "T" + std::to_string(i), height, i == 0,
                             core::List{core::Object{{"rule", "trunk too thin"}, {"measured", 12.5}}}}};
    };
    return layer;
}

geo::Layer line_and_ground(geo::GeometryKind kind) {
    geo::Layer layer;
    layer.name = kind == geo::GeometryKind::line ? "flight_lines" : "allowed_area";
    layer.geometry = kind;
    layer.crs = geo::wgs84();
    layer.size = 1;
    layer.feature = [kind](std::size_t) {
        const geo::Line ring{{-3, 51}, {-2, 51}, {-2, 52}, {-3, 51}};
        return kind == geo::GeometryKind::line ? geo::Feature{ring, {}}
                                               : geo::Feature{std::vector{geo::Polygon{ring, {}}}, {}};
    };
    return layer;
}

/// A hill of values with a corner that is not known.
core::Raster hill(std::size_t rows, std::size_t columns) {
    core::Raster raster{{{500'000.0, 5'600'000.0}, core::Metres(2.0), rows, columns}, {}, {}};
    raster.values.resize(raster.grid.size());
    raster.known.resize(raster.grid.size());
    for (std::size_t r = 0; r < rows; ++r)
        for (std::size_t c = 0; c < columns; ++c) {
            const double x = static_cast<double>(c) / 40.0, y = static_cast<double>(r) / 60.0;
            raster.values[raster.grid.index({r, c})] = static_cast<float>(std::sin(x) + std::cos(y) * x);
            raster.known[raster.grid.index({r, c})] = r + c >= rows / 2 ? 1 : 0;
        }
    return raster;
}

TEST(GeoJson, ReopensInLongitudeAndLatitude) {
    const ScratchFolder scratch;
    write_geojson(scratch / "a.geojson", trees(10), {});
    const Dataset dataset = opened(scratch / "a.geojson");
    OGRLayerH layer = GDALDatasetGetLayer(dataset.get(), 0);
    EXPECT_EQ(epsg_of(OGR_L_GetSpatialRef(layer)), "EPSG:4326");
    EXPECT_STREQ(OGR_L_GetName(layer), "ranked_sites");
    EXPECT_EQ(OGR_L_GetFeatureCount(layer, TRUE), 10);
}

TEST(GeoPackage, ReopensWithEachLayersOwnSystem) {
    const ScratchFolder scratch;
    const std::vector<geo::Layer> layers{trees(50), line_and_ground(geo::GeometryKind::line),
                                         line_and_ground(geo::GeometryKind::polygons)};
    write_geopackage(scratch / "plan.gpkg", layers, noon);
    const Dataset dataset = opened(scratch / "plan.gpkg");
    ASSERT_TRUE(dataset);
    OGRLayerH points = GDALDatasetGetLayerByName(dataset.get(), "ranked_sites");
    OGRLayerH lines = GDALDatasetGetLayerByName(dataset.get(), "flight_lines");
    OGRLayerH grounds = GDALDatasetGetLayerByName(dataset.get(), "allowed_area");
    EXPECT_EQ(epsg_of(OGR_L_GetSpatialRef(points)), "EPSG:32630");
    EXPECT_EQ(epsg_of(OGR_L_GetSpatialRef(lines)), "EPSG:4326");
    EXPECT_EQ(OGR_L_GetGeomType(points), wkbPoint);
    EXPECT_EQ(OGR_L_GetGeomType(lines), wkbLineString);
    EXPECT_EQ(OGR_L_GetGeomType(grounds), wkbMultiPolygon);
    EXPECT_EQ(OGR_L_GetFeatureCount(points, TRUE), 50);
    OGREnvelope box;
    OGR_L_GetExtent(grounds, &box, TRUE);
    EXPECT_EQ(box.MinX, -3.0);  // x is the longitude
    EXPECT_EQ(box.MaxY, 52.0);
}

TEST(GeoPackage, KeepsValuesAndKinds) {
    const ScratchFolder scratch;
    const std::vector<geo::Layer> layers{trees(3)};
    write_geopackage(scratch / "plan.gpkg", layers, noon);
    const Dataset dataset = opened(scratch / "plan.gpkg");
    OGRLayerH layer = GDALDatasetGetLayer(dataset.get(), 0);
    const auto of = [&](OGRFeatureH feature, const char* name) { return OGR_F_GetFieldIndex(feature, name); };
    OGRFeatureH second = OGR_L_GetFeature(layer, 2);
    EXPECT_EQ(OGR_F_GetFieldAsInteger64(second, of(second, "rank")), 2);
    EXPECT_STREQ(OGR_F_GetFieldAsString(second, of(second, "tree")), "T1");
    EXPECT_EQ(OGR_F_GetFieldAsDouble(second, of(second, "height_m")), 10.1428571);  // 10 + 1/7, nine digits
    EXPECT_STREQ(OGR_F_GetFieldAsString(second, of(second, "reasons")),
                 R"([{"rule":"trunk too thin","measured":12.5}])");
    EXPECT_EQ(OGR_G_GetX(OGR_F_GetGeometryRef(second), 0), 500'001.1235);
    OGR_F_Destroy(second);
    OGRFeatureH third = OGR_L_GetFeature(layer, 3);
    EXPECT_TRUE(OGR_F_IsFieldNull(third, of(third, "height_m")));
    EXPECT_EQ(OGR_F_GetFieldAsInteger(third, of(third, "chosen")), 0);
    OGR_F_Destroy(third);
}

// OGC 12-128r18, requirements 1 and 2: an SQLite 3 file with the application id "GPKG"; requirement 15: the
// form of last_change.
TEST(GeoPackage, CarriesItsMarksAndTheStampItWasGiven) {
    const ScratchFolder scratch;
    const std::vector<geo::Layer> layers{trees(3)};
    write_geopackage(scratch / "plan.gpkg", layers, noon);
    const std::string bytes = text_of(scratch / "plan.gpkg");
    EXPECT_EQ(bytes.substr(0, 16), std::string("SQLite format 3\0", 16));
    EXPECT_EQ(bytes.substr(68, 4), "GPKG");
    EXPECT_NE(bytes.find("2026-06-14T12:00:00.000Z"), std::string::npos);
}

TEST(GeoPackage, IsTheSameByteForByte) {
    const ScratchFolder scratch;
    const std::vector<geo::Layer> layers{trees(2000), line_and_ground(geo::GeometryKind::line)};
    write_geopackage(scratch / "a.gpkg", layers, noon);
    write_geopackage(scratch / "b.gpkg", layers, noon);
    EXPECT_EQ(sha256_of(scratch / "a.gpkg"), sha256_of(scratch / "b.gpkg"));
}

std::string answer_of(GDALDatasetH dataset, const std::string& sql) {
    OGRLayerH rows = GDALDatasetExecuteSQL(dataset, sql.c_str(), nullptr, nullptr);
    OGRFeatureH row = OGR_L_GetNextFeature(rows);
    std::string text = OGR_F_GetFieldAsString(row, 0);
    OGR_F_Destroy(row);
    GDALDatasetReleaseResultSet(dataset, rows);
    return text;
}

// rtreecheck() is SQLite's own look at an R-tree and at what its rows say (sqlite.org/rtree.html, section 5).
TEST(GeoPackage, HasASoundSpatialIndex) {
    for (const std::size_t count : {0U, 1U, 51U, 52U, 2'000U, 150'000U}) {
        const ScratchFolder scratch;
        const std::vector<geo::Layer> layers{trees(count)};
        write_geopackage(scratch / "plan.gpkg", layers, noon);
        const Dataset dataset = opened(scratch / "plan.gpkg");
        EXPECT_EQ(answer_of(dataset.get(), "SELECT rtreecheck('rtree_ranked_sites_geom')"), "ok") << count;
        EXPECT_EQ(answer_of(dataset.get(), "SELECT count(*) FROM rtree_ranked_sites_geom"),
                  std::to_string(count));
        OGRLayerH layer = GDALDatasetGetLayer(dataset.get(), 0);
        EXPECT_TRUE(OGR_L_TestCapability(layer, OLCFastSpatialFilter));
        OGR_L_SetSpatialFilterRect(layer, 500'000, 5'600'000, 500'040.5,
                                   5'600'001);  // trees stand a metre apart
        EXPECT_EQ(OGR_L_GetFeatureCount(layer, TRUE), static_cast<GIntBig>(std::min<std::size_t>(count, 41)))
            << count;
    }
}

std::string shape_of(GDALDatasetH dataset, const char* layer, GIntBig id) {
    OGRFeatureH feature = OGR_L_GetFeature(GDALDatasetGetLayerByName(dataset, layer), id);
    OGRGeometryH geometry = OGR_F_GetGeometryRef(feature);
    char* text = nullptr;
    if (geometry != nullptr) OGR_G_ExportToWkt(geometry, &text);
    const std::string shape = text == nullptr ? "none" : text;
    CPLFree(text);
    OGR_F_Destroy(feature);
    return shape;
}

TEST(GeoPackage, KeepsShapesAndLeavesOutWhatHasNoPlace) {
    const ScratchFolder scratch;
    std::vector<geo::Layer> layers{trees(2), line_and_ground(geo::GeometryKind::line),
                                   line_and_ground(geo::GeometryKind::polygons)};
    layers[0].feature = [](std::size_t i) {
        return geo::Feature{core::PlanePoint{i == 0 ? NAN : 500'000.0, 5'600'000.0}, {1, "", 1.0, true, ""}};
    };
    layers[1].size = 2;
    layers[1].feature = [](std::size_t i) {
        return geo::Feature{i == 0 ? geo::Line{{-3, 51}} : geo::Line{{-3, 51}, {-2.123456789, 52.25}}, {}};
    };
    layers[2].feature = [](std::size_t) {
        const geo::Line outer{{0, 0}, {4, 0}, {0, 4}, {0, 0}}, hole{{1, 1}, {1, 2}, {2, 1}, {1, 1}};
        const geo::Line other{{8, 8}, {9, 8}, {9, 9}, {8, 8}};
        return geo::Feature{std::vector{geo::Polygon{outer, {hole}}, geo::Polygon{other, {}}}, {}};
    };
    write_geopackage(scratch / "plan.gpkg", layers, noon);
    const Dataset dataset = opened(scratch / "plan.gpkg");
    EXPECT_EQ(shape_of(dataset.get(), "ranked_sites", 1), "none");
    EXPECT_EQ(shape_of(dataset.get(), "ranked_sites", 2), "POINT (500000 5600000)");
    EXPECT_EQ(shape_of(dataset.get(), "flight_lines", 1), "none");
    EXPECT_EQ(shape_of(dataset.get(), "flight_lines", 2), "LINESTRING (-3 51,-2.1234568 52.25)");
    EXPECT_EQ(shape_of(dataset.get(), "allowed_area", 1),
              "MULTIPOLYGON (((0 0,4 0,0 4,0 0),(1 1,1 2,2 1,1 1)),((8 8,9 8,9 9,8 8)))");
    // ST_MinX and its kin read the box from the header (OGC 12-128r18, section 2.1.3.1.1).
    EXPECT_EQ(answer_of(dataset.get(),
                        "SELECT ST_MinX(geom) || ' ' || ST_MaxX(geom) || ' ' || ST_MinY(geom) "
                        "|| ' ' || ST_MaxY(geom) FROM allowed_area"),
              "0.0 9.0 0.0 9.0");
    EXPECT_EQ(answer_of(dataset.get(), "SELECT count(*) FROM rtree_ranked_sites_geom"), "1");
}

TEST(GeoPackage, ReplacesBytesThatAreNotUtf8) {
    const ScratchFolder scratch;
    std::vector<geo::Layer> layers{trees(1)};
    layers[0].feature = [](std::size_t) {
        return geo::Feature{core::PlanePoint{}, {1, "caf\xE9 \xC3\xA9", INFINITY, true, core::List{"\xE9"}}};
    };
    write_geopackage(scratch / "plan.gpkg", layers, noon);
    const Dataset dataset = opened(scratch / "plan.gpkg");
    EXPECT_EQ(answer_of(dataset.get(), "SELECT tree FROM ranked_sites"), "caf\xEF\xBF\xBD \xC3\xA9");
    EXPECT_EQ(answer_of(dataset.get(), "SELECT reasons FROM ranked_sites"), "[\"\xEF\xBF\xBD\"]");
    EXPECT_EQ(answer_of(dataset.get(), "SELECT height_m IS NULL FROM ranked_sites"), "1");
}

// What GDAL leaves behind itself: an extent, a count, and triggers that keep both the count and the index.
TEST(GeoPackage, KeepsItsExtentCountAndTriggers) {
    const ScratchFolder scratch;
    const std::vector<geo::Layer> layers{trees(100)};
    write_geopackage(scratch / "plan.gpkg", layers, noon);
    const Dataset dataset = opened(scratch / "plan.gpkg");
    EXPECT_EQ(answer_of(dataset.get(),
                        "SELECT min_x || ' ' || max_x || ' ' || min_y || ' ' || max_y FROM "
                        "gpkg_contents"),
              "500000.1235 500099.1235 5600000.5 5600000.5");
    EXPECT_EQ(answer_of(dataset.get(), "SELECT feature_count FROM gpkg_ogr_contents"), "100");
    EXPECT_EQ(answer_of(dataset.get(),
                        "SELECT count(*) FROM sqlite_master WHERE type = 'trigger' AND "
                        "tbl_name = 'ranked_sites'"),
              "8");
}

TEST(GeoPackage, PassesOnWhatALayerThrows) {
    const ScratchFolder scratch;
    std::vector<geo::Layer> layers{trees(100)};
    layers[0].feature = [](std::size_t i) {
        if (i == 60) throw std::range_error("tree 60");
        return geo::Feature{core::PlanePoint{}, {1, "", 1.0, true, ""}};
    };
    EXPECT_THROW(write_geopackage(scratch / "plan.gpkg", layers, noon), std::range_error);
}

// A desktop GIS edits the file later: the index must follow.
TEST(GeoPackage, KeepsItsSpatialIndexWhenEdited) {
    const ScratchFolder scratch;
    const std::vector<geo::Layer> layers{trees(200)};
    write_geopackage(scratch / "plan.gpkg", layers, noon);
    {
        const Dataset dataset(
            GDALOpenEx((scratch / "plan.gpkg").c_str(), GDAL_OF_UPDATE, nullptr, nullptr, nullptr));
        OGRLayerH layer = GDALDatasetGetLayer(dataset.get(), 0);
        for (GIntBig id = 1; id <= 90; ++id)
            ASSERT_EQ(OGR_L_DeleteFeature(layer, id), OGRERR_NONE);
        OGRFeatureH added = OGR_F_Create(OGR_L_GetLayerDefn(layer));
        OGRGeometryH point = OGR_G_CreateGeometry(wkbPoint);
        OGR_G_SetPoint_2D(point, 0, 1.0, 2.0);
        OGR_F_SetGeometryDirectly(added, point);
        ASSERT_EQ(OGR_L_CreateFeature(layer, added), OGRERR_NONE);
        OGR_F_Destroy(added);
    }
    const Dataset dataset = opened(scratch / "plan.gpkg");
    EXPECT_EQ(answer_of(dataset.get(), "SELECT rtreecheck('rtree_ranked_sites_geom')"), "ok");
    EXPECT_EQ(answer_of(dataset.get(), "SELECT count(*) FROM rtree_ranked_sites_geom"), "111");
}

TEST(Raster, ReopensWithItsCellsInPlace) {
    const ScratchFolder scratch;
    const core::Raster raster = hill(7, 5);
    write_raster(scratch / "a.tif", raster, {"EPSG:32630"}, "Flight density, metres per hectare and hour");
    const Dataset dataset = opened(scratch / "a.tif");
    ASSERT_TRUE(dataset);
    EXPECT_EQ(epsg_of(GDALGetSpatialRef(dataset.get())), "EPSG:32630");
    double transform[6];
    GDALGetGeoTransform(dataset.get(), transform);
    EXPECT_EQ(std::vector<double>(transform, transform + 6),
              (std::vector<double>{500'000.0, 2.0, 0.0, 5'600'000.0, 0.0, -2.0}));  // row 0 in the north
    EXPECT_STREQ(GDALGetMetadataItem(dataset.get(), "TIFFTAG_IMAGEDESCRIPTION", nullptr),
                 "Flight density, metres per hectare and hour");
    GDALRasterBandH band = GDALGetRasterBand(dataset.get(), 1);
    int has_no_data = 0;
    EXPECT_TRUE(std::isnan(GDALGetRasterNoDataValue(band, &has_no_data)) && has_no_data);
    EXPECT_EQ(GDALGetRasterDataType(band), GDT_Float32);
    std::vector<float> cells(35);
    ASSERT_EQ(GDALRasterIO(band, GF_Read, 0, 0, 5, 7, cells.data(), 5, 7, GDT_Float32, 0, 0), CE_None);
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (raster.known[i] != 0) {
            // Seventeen bits of each number are kept.
            EXPECT_NEAR(cells[i], raster.values[i], std::ldexp(raster.values[i], -17)) << i;
        } else {
            EXPECT_TRUE(std::isnan(cells[i])) << i;
        }
    }
}

/// A number that GDAL's GeoTIFF driver tells of a band, -1 where it has none.
long tiff_number(GDALRasterBandH band, const char* item) {
    const char* text = GDALGetMetadataItem(band, item, "TIFF");
    return text == nullptr ? -1 : std::atol(text);
}

// OGC 21-026, Cloud Optimized GeoTIFF: tiled, with overviews; the full image's directory comes first, then
// the overviews' from large to small; pixels come after all directories, those of the smallest overview
// first.
TEST(Raster, HasTheLayoutOfACloudOptimizedGeoTiff) {
    const ScratchFolder scratch;
    write_raster(scratch / "a.tif", hill(1300, 1100), {"EPSG:32630"}, "hill");
    const Dataset dataset = opened(scratch / "a.tif");
    EXPECT_STREQ(GDALGetMetadataItem(dataset.get(), "LAYOUT", "IMAGE_STRUCTURE"), "COG");
    EXPECT_STREQ(GDALGetMetadataItem(dataset.get(), "COMPRESSION", "IMAGE_STRUCTURE"), "DEFLATE");
    GDALRasterBandH full = GDALGetRasterBand(dataset.get(), 1);
    ASSERT_EQ(GDALGetOverviewCount(full), 2);  // 650 x 550 and 325 x 275
    std::vector<GDALRasterBandH> levels{full, GDALGetOverview(full, 0), GDALGetOverview(full, 1)};
    long last_directory = 0, last_pixels = 0;
    for (GDALRasterBandH level : levels) {
        int width = 0, height = 0;
        GDALGetBlockSize(level, &width, &height);
        EXPECT_EQ(width, 512);
        EXPECT_EQ(height, 512);
        const long directory = tiff_number(level, "IFD_OFFSET");
        EXPECT_GT(directory, last_directory);
        last_directory = directory;
    }
    for (std::size_t i = levels.size(); i-- > 0;) {
        const long pixels = tiff_number(levels[i], "BLOCK_OFFSET_0_0");
        EXPECT_GT(pixels, std::max(last_directory, last_pixels));
        last_pixels = pixels;
    }
}

TEST(Raster, WithoutOverviewsHasTheSamePixels) {
    const ScratchFolder scratch;
    const core::Raster raster = hill(1300, 1100);
    write_raster(scratch / "whole.tif", raster, {"EPSG:32630"}, "hill");
    write_raster(scratch / "bare.tif", raster, {"EPSG:32630"}, "hill", Overviews::none);
    const Dataset whole = opened(scratch / "whole.tif"), bare = opened(scratch / "bare.tif");
    EXPECT_STREQ(GDALGetMetadataItem(bare.get(), "LAYOUT", "IMAGE_STRUCTURE"), "COG");
    EXPECT_EQ(GDALGetOverviewCount(GDALGetRasterBand(bare.get(), 1)), 0);
    const auto pixels_of = [](const Dataset& dataset) {
        std::vector<std::uint32_t> bits(1300 * 1100);
        EXPECT_EQ(GDALRasterIO(GDALGetRasterBand(dataset.get(), 1), GF_Read, 0, 0, 1100, 1300, bits.data(),
                               1100, 1300, GDT_Float32, 0, 0),
                  CE_None);
        return bits;
    };
    EXPECT_EQ(pixels_of(bare), pixels_of(whole));
}

TEST(Raster, IsTheSameForAnyNumberOfThreads) {
    const ScratchFolder scratch;
    const core::Raster raster = hill(1300, 1100);
    std::vector<std::string> sums;
    for (const char* threads : {"1", "2", "7"}) {
        CPLSetConfigOption("GDAL_NUM_THREADS", threads);
        write_raster(scratch / "a.tif", raster, {"EPSG:32630"}, "hill");
        sums.push_back(sha256_of(scratch / "a.tif"));
    }
    CPLSetConfigOption("GDAL_NUM_THREADS", nullptr);
    EXPECT_EQ(sums[0], sums[1]);
    EXPECT_EQ(sums[0], sums[2]);
}

struct Writer {
    std::string name;
    std::function<void(const fs::path&)> write;
};

std::vector<Writer> all_writers() {
    return {
        {"a.geojson", [](const fs::path& file) { write_geojson(file, trees(2000), {}); }},
        {"a.gpkg",
         [](const fs::path& file) {
             const std::vector<geo::Layer> layers{trees(2000)};
             write_geopackage(file, layers, noon);
         }},
        {"a.tif", [](const fs::path& file) { write_raster(file, hill(1300, 1100), {"EPSG:32630"}, "hill"); }},
        {"a.csv",
         [](const fs::path& file) {
             write_csv(file, {{"note"}, {20'000, std::vector<std::string>{"a long note"}}});
         }},
        {"a.json",
         [](const fs::path& file) { write_json(file, core::List(20'000, core::Document("a long note"))); }}};
}

/// GDAL's threads do not live on in a child process: it must do without.
int in_child_without_threads(const std::function<int()>& work) {
    return testing::in_child([&] {
        CPLSetConfigOption("GDAL_NUM_THREADS", "1");
        return work();
    });
}

/// 0 where the write fails with Error{outputs} that names the file, 1 where it claims success, 2 else.
int outcome_of(const Writer& writer, const fs::path& file) {
    try {
        writer.write(file);
        return 1;
    } catch (const core::Error& error) {
        return error.fault() == core::Fault::outputs && error.place().file == writer.name ? 0 : 2;
    }
}

// setrlimit(2): a write beyond RLIMIT_FSIZE fails, as on a full disk.
TEST(AllWriters, TellWhenAFileCannotGrow) {
    const ScratchFolder scratch;
    for (const Writer& writer : all_writers()) {
        writer.write(scratch / writer.name);
        const auto size = static_cast<double>(fs::file_size(scratch / writer.name));
        for (const double share : {0.0001, 0.02, 0.3, 0.7, 0.95, 0.9999}) {
            const auto limit = static_cast<::rlim_t>(size * share);
            fs::remove(scratch / writer.name);
            EXPECT_EQ(in_child_without_threads([&] {
                          testing::limit_file_size(limit);
                          return outcome_of(writer, scratch / writer.name);
                      }),
                      0)
                << writer.name << " with " << limit << " of " << size << " bytes";
        }
    }
}

TEST(AllWriters, TellOfAFullDisk) {
    constexpr int not_allowed = 77;
    for (const Writer& writer : all_writers()) {
        const ScratchFolder scratch;
        const int outcome = in_child_without_threads([&] {
            if (!testing::mount_small_disk(scratch.path(), "size=64k")) return not_allowed;
            return outcome_of(writer, scratch / writer.name);
        });
        if (outcome == not_allowed) GTEST_SKIP() << "this system lets no test mount a small disk";
        EXPECT_EQ(outcome, 0) << writer.name;
    }
}

}  // namespace
}  // namespace roostward::io
