#include <gdal.h>
#include <gtest/gtest.h>
#include <ogr_srs_api.h>

#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <memory>
#include <string>
#include <vector>

#include "io/reading_site.hpp"

namespace roostward::io {
namespace {

using core::Fault;
using testing::ReadingSite;
using testing::source_of;

struct Closer {
    void operator()(void* dataset) const { GDALClose(dataset); }
};
using Dataset = std::unique_ptr<void, Closer>;

/// A raster as GDAL writes it. The pass and the watch of ReadingSite lie at 575270 east, 5794825 north in
/// EPSG:32630.
struct Written {
    std::array<double, 6> transform{575000.0, 1.0, 0.0, 5795100.0, 0.0, -1.0};
    int columns = 500;
    int rows = 500;
    int epsg = 32630;
    GDALDataType type = GDT_Float32;
    std::function<double(int row, int column)> height = [](int row, int column) {
        return (row * 7 + column * 13) % 20;
    };
    double nodata = std::numeric_limits<double>::quiet_NaN();

    void to(const std::string& file) const {
        GDALAllRegister();
        const Dataset dataset(
            GDALCreate(GDALGetDriverByName("GTiff"), file.c_str(), columns, rows, 1, type, nullptr));
        GDALSetGeoTransform(dataset.get(), const_cast<double*>(transform.data()));
        if (epsg != 0) {
            OGRSpatialReferenceH crs = OSRNewSpatialReference(nullptr);
            OSRImportFromEPSG(crs, epsg);
            GDALSetSpatialRef(dataset.get(), crs);
            OSRDestroySpatialReference(crs);
        }
        GDALRasterBandH band = GDALGetRasterBand(dataset.get(), 1);
        if (!std::isnan(nodata)) GDALSetRasterNoDataValue(band, nodata);
        std::vector<double> line(static_cast<std::size_t>(columns));
        for (int row = 0; row < rows; ++row) {
            for (int column = 0; column < columns; ++column)
                line[static_cast<std::size_t>(column)] = height(row, column);
            ASSERT_EQ(
                GDALRasterIO(band, GF_Write, 0, row, columns, 1, line.data(), columns, 1, GDT_Float64, 0, 0),
                CE_None);
        }
    }
};

struct CanopySite : ReadingSite {
    explicit CanopySite(const Written& raster) {
        raster.to((folder / "canopy.tif").string());
        file.canopy = source_of("canopy", folder / "canopy.tif");
    }
};

TEST(CanopyReading, CellsInThePlaneAreKeptAsTheyAre) {
    const Written written;
    CanopySite site(written);
    const siting::Inputs inputs = site.read();
    const core::Raster& canopy = *inputs.canopy_height;
    EXPECT_EQ(canopy.grid.cell.value(), 1.0);
    for (int row = 0; row < written.rows; row += 37) {
        for (int column = 0; column < written.columns; column += 41) {
            const std::optional<float> height = canopy.at({575000.5 + column, 5795099.5 - row});
            if (!height) continue;
            EXPECT_EQ(*height, static_cast<float>(written.height(row, column))) << row << " " << column;
        }
    }
    EXPECT_TRUE(canopy.at({575270.0, 5794825.0}));
    EXPECT_TRUE(inputs.files.back().operation.empty());
    EXPECT_TRUE(site.findings.empty());
}

TEST(CanopyReading, OnlyTheGroundAroundTheSiteIsRead) {
    Written written;
    written.columns = 3000;
    written.rows = 3000;
    written.transform = {574000.0, 1.0, 0.0, 5796500.0, 0.0, -1.0};
    written.type = GDT_Byte;
    CanopySite site(written);
    const siting::Inputs inputs = site.read();
    EXPECT_LT(inputs.canopy_height->grid.size(), 300'000U);
}

TEST(CanopyReading, EveryKindOfNoDataIsUnknown) {
    Written written;
    written.type = GDT_Float64;
    written.nodata = -1.7e308;
    written.height = [](int row, int column) {
        if (row % 5 == 0) return -1.7e308;
        if (row % 5 == 1) return std::numeric_limits<double>::quiet_NaN();
        if (row % 5 == 2) return -9999.0;
        if (row % 5 == 3) return 3.4e38;
        return static_cast<double>((row * 7 + column * 13) % 20);
    };
    CanopySite site(written);
    const siting::Inputs inputs = site.read();
    const core::Raster& canopy = *inputs.canopy_height;
    for (std::size_t i = 0; i < canopy.grid.size(); ++i) {
        const core::PlanePoint centre =
            canopy.grid.centre({i / canopy.grid.columns, i % canopy.grid.columns});
        const int row = static_cast<int>(std::floor(5795100.0 - centre.northing));
        ASSERT_EQ(canopy.known[i], row % 5 == 4 ? 1 : 0) << row;
        ASSERT_GE(canopy.values[i], 0.0F);
    }
}

TEST(CanopyReading, OtherSystemsAreResampledToTheNearest) {
    Written written;
    written.epsg = 27700;  // the same ground in the British National Grid, about 407100 east and 266700 north
    written.transform = {406900.0, 1.0, 0.0, 266900.0, 0.0, -1.0};
    written.height = [](int, int column) { return column < 250 ? 3.0 : 17.0; };
    CanopySite site(written);
    const siting::Inputs inputs = site.read();
    const core::Raster& canopy = *inputs.canopy_height;
    const geo::Transform to_grid(inputs.planning_crs, {"EPSG:27700"});
    std::size_t compared = 0;
    for (std::size_t row = 5; row < canopy.grid.rows; row += 17) {
        for (std::size_t column = 5; column < canopy.grid.columns; column += 17) {
            const core::PlanePoint centre = canopy.grid.centre({row, column});
            const core::PlanePoint there = to_grid(centre);
            const std::optional<float> height = canopy.at(centre);
            if (!height || std::abs(there.easting - 407150.0) < 2.0) continue;
            EXPECT_EQ(*height, there.easting < 407150.0 ? 3.0F : 17.0F);
            ++compared;
        }
    }
    EXPECT_GT(compared, 200U);
    EXPECT_FALSE(inputs.files.back().operation.empty());
}

TEST(CanopyReading, ARasterWithoutASystemStops) {
    Written written;
    written.epsg = 0;
    CanopySite site(written);
    const ReadingSite::Stop stop = site.stop();
    EXPECT_EQ(stop.fault, Fault::inputs);
    EXPECT_NE(stop.text.find("canopy.tif"), std::string::npos);
    EXPECT_NE(stop.text.find("coordinate reference system"), std::string::npos) << stop.text;
    site.file.canopy->crs = "EPSG:32630";
    EXPECT_TRUE(site.read().canopy_height);
}

TEST(CanopyReading, ARasterElsewhereStops) {
    Written written;
    written.transform[0] = 600000.0;
    CanopySite site(written);
    const ReadingSite::Stop stop = site.stop();
    EXPECT_EQ(stop.fault, Fault::inputs);
    EXPECT_NE(stop.text.find("does not cover the site: it lies at 600000–600500 east"), std::string::npos)
        << stop.text;
}

TEST(CanopyReading, AnEmptyFileStops) {
    ReadingSite site;
    site.put("canopy.tif", "");
    site.file.canopy = source_of("canopy", site.folder / "canopy.tif");
    EXPECT_NE(site.stop().text.find("canopy.tif, layer canopy: the file is empty (0 bytes)"),
              std::string::npos);
    site.put("canopy.tif", "this is no raster");
    EXPECT_NE(site.stop().text.find("cannot be read as raster data"), std::string::npos);
}

TEST(CanopyReading, ATerrainModelIsDoubted) {
    Written hills;
    hills.height = [](int row, int column) { return 95.0 + 0.02 * row + 0.01 * column; };
    Written coast;
    coast.height = [](int row, int column) { return 12.0 + 0.02 * row + 0.01 * column; };
    Written mountains;
    mountains.height = [](int row, int column) { return 950.0 + 0.02 * row + 0.01 * column; };
    for (const Written& terrain : {hills, coast, mountains}) {
        CanopySite site(terrain);
        (void)site.read();
        EXPECT_TRUE(site.found("terrain given as canopy"));
    }
}

}  // namespace
}  // namespace roostward::io
