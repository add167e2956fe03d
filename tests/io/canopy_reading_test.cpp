#include <gdal.h>
#include <gtest/gtest.h>
#include <ogr_srs_api.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <memory>
#include <optional>
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
    std::optional<double> nodata;
    std::function<bool(int row, int column)> masked;  ///< where given, told by a mask band of its own
    bool mask_is_alpha = false;                       ///< or by the last band
    const char* unit = "";
    const char* heights_in = "";  ///< "+5703": a system of heights, by its number

    void to(const std::string& file) const {
        GDALAllRegister();
        const Dataset dataset(GDALCreate(GDALGetDriverByName("GTiff"), file.c_str(), columns, rows,
                                         mask_is_alpha ? 2 : 1, type, nullptr));
        GDALSetGeoTransform(dataset.get(), const_cast<double*>(transform.data()));
        if (epsg != 0) {
            OGRSpatialReferenceH crs = OSRNewSpatialReference(nullptr);
            OSRSetFromUserInput(crs, ("EPSG:" + std::to_string(epsg) + heights_in).c_str());
            OSRSetAxisMappingStrategy(crs, OAMS_TRADITIONAL_GIS_ORDER);
            GDALSetSpatialRef(dataset.get(), crs);
            OSRDestroySpatialReference(crs);
        }
        GDALRasterBandH band = GDALGetRasterBand(dataset.get(), 1);
        if (nodata) GDALSetRasterNoDataValue(band, *nodata);
        if (*unit != '\0') GDALSetRasterUnitType(band, unit);
        fill(band, height);
        if (!masked) return;
        if (mask_is_alpha) {
            GDALSetRasterColorInterpretation(GDALGetRasterBand(dataset.get(), 2), GCI_AlphaBand);
        } else {
            GDALCreateDatasetMaskBand(dataset.get(), GMF_PER_DATASET);
        }
        fill(mask_is_alpha ? GDALGetRasterBand(dataset.get(), 2) : GDALGetMaskBand(band),
             [&](int row, int column) { return masked(row, column) ? 0.0 : 255.0; });
    }

    void fill(GDALRasterBandH band, const std::function<double(int row, int column)>& value) const {
        std::vector<double> line(static_cast<std::size_t>(columns));
        for (int row = 0; row < rows; ++row) {
            for (int column = 0; column < columns; ++column)
                line[static_cast<std::size_t>(column)] = value(row, column);
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

/// Where a point of the plane lies in the raster: cells from its first corner.
struct InCells {
    explicit InCells(const Written& raster, const geo::Crs& plane)
        : t(raster.transform), way(plane, {"EPSG:" + std::to_string(raster.epsg)}) {}

    [[nodiscard]] core::PlanePoint operator()(
        core::PlanePoint point) const {  // easting: column, northing: row
        const core::PlanePoint there = way(point);
        const double x = there.easting - t[0], y = there.northing - t[3], area = t[1] * t[5] - t[2] * t[4];
        return {(t[5] * x - t[2] * y) / area, (t[1] * y - t[4] * x) / area};
    }

    std::array<double, 6> t;
    geo::Transform way;
};

/// Rasters of all kinds of systems and cells, all over the site.
std::vector<Written> placements() {
    const auto placed = [](int epsg, std::array<double, 6> transform, int columns, int rows) {
        Written raster;
        raster.epsg = epsg;
        raster.transform = transform;
        raster.columns = columns;
        raster.rows = rows;
        return raster;
    };
    const double c = std::cos(0.5), s = std::sin(0.5);
    return {placed(32630, {575000.0, 1.0, 0.0, 5795100.0, 0.0, -1.0}, 500, 500),
            placed(32630, {575150.3, 0.25, 0.0, 5794950.1, 0.0, -0.25}, 1000, 1000),
            placed(32630, {575000.0, 5.0, 0.0, 5795100.0, 0.0, -5.0}, 100, 100),
            placed(32630, {575000.0, 1.0, 0.0, 5795100.0, 0.0, -2.0}, 500, 250),  // cells not square
            placed(32630, {575000.0, 1.0, 0.0, 5794600.0, 0.0, 1.0}, 500, 500),   // south up
            placed(32630, {574930.0, c, s, 5794925.0, s, -c}, 500, 500),          // turned
            placed(27700, {406900.0, 1.0, 0.0, 266760.0, 0.0, -1.0}, 500, 120),   // British National Grid
            placed(4326, {-1.899, 1e-5, 0.0, 52.2986, 0.0, -1e-5}, 700, 120),     // degrees
            placed(4258, {-1.899, 1e-5, 0.0, 52.2986, 0.0, -1e-5}, 700, 120)};
}

std::string told(const Written& raster) {
    return std::to_string(raster.epsg) + ", cells of " + std::to_string(raster.transform[1]) + " and " +
           std::to_string(raster.transform[5]);
}

/// Bands of 20 columns of the raster, unknown by turns; empty within two cells of where they meet, for the
/// two ways to bring points into another system may differ by a metre.
std::optional<bool> lies_in_unknown(double column) {
    const double in_band = std::fmod(column, 20.0);
    if (in_band < 2.0 || in_band > 18.0) return std::nullopt;
    return std::fmod(column, 40.0) < 20.0;
}

TEST(CanopyReading, NoDataIsUnknownInEverySystemHoweverItIsTold) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    struct Kind {
        std::string name;
        double stored = 0.0;
        std::optional<double> declared = {};
        GDALDataType type = GDT_Float32;
        bool told = false;  ///< whether a finding says so
        bool mask = false, alpha = false;
    };
    const std::vector<Kind> kinds{{"nan declared", nan, nan},
                                  {"nan undeclared", nan},
                                  {"-9999 declared", -9999.0, -9999.0},
                                  {"-9999 undeclared", -9999.0, {}, GDT_Float32, true},
                                  {"-9999 in whole numbers", -9999.0, -9999.0, GDT_Int16},
                                  {"-1.7e308 declared", -1.7e308, -1.7e308, GDT_Float64},
                                  {"-1.7e308 undeclared", -1.7e308, {}, GDT_Float64},
                                  {"3.4e38 undeclared", 3.4e38, {}, GDT_Float32, true},
                                  {"mask band", 9.0, {}, GDT_Float32, false, true},
                                  {"alpha band", 9.0, {}, GDT_Float32, false, true, true},
                                  {"alpha band of bytes", 9.0, {}, GDT_Byte, false, true, true}};
    for (const Written& place : placements()) {
        for (const Kind& kind : kinds) {
            SCOPED_TRACE(told(place) + ": " + kind.name);
            Written raster = place;
            const auto unknown = [](int, int column) { return column % 40 < 20; };
            raster.height = [&](int row, int column) { return unknown(row, column) ? kind.stored : 12.0; };
            raster.type = kind.type;
            raster.nodata = kind.declared;
            if (kind.mask) raster.masked = unknown;
            raster.mask_is_alpha = kind.alpha;
            CanopySite site(raster);
            const siting::Inputs inputs = site.read();
            const core::Raster& canopy = *inputs.canopy_height;
            const InCells in_cells(raster, inputs.planning_crs);
            std::size_t known = 0, not_known = 0, wrong = 0;
            for (std::size_t row = 3; row < canopy.grid.rows; row += 7) {
                for (std::size_t column = 3; column < canopy.grid.columns; column += 7) {
                    const core::PlanePoint at = in_cells(canopy.grid.centre({row, column}));
                    const bool outside = at.easting < 2.0 || at.northing < 2.0 ||
                                         at.easting > raster.columns - 2.0 || at.northing > raster.rows - 2.0;
                    const auto expected = lies_in_unknown(at.easting);
                    if (outside || !expected) continue;
                    const auto height = canopy.at(canopy.grid.centre({row, column}));
                    ++(*expected ? not_known : known);
                    wrong += *expected ? height.has_value() : height != 12.0F;
                }
            }
            EXPECT_EQ(wrong, 0U);
            EXPECT_GT(known, 20U);
            EXPECT_GT(not_known, 20U);
            EXPECT_FALSE(site.found("several bands"));
            EXPECT_EQ(site.found("impossible canopy height"), kind.told);
        }
    }
}

TEST(CanopyReading, HeightsInFeetBecomeMetres) {
    struct Told {
        const char* unit;
        const char* heights_in;  ///< a system of heights, behind the one of the map
        double metres;
    };
    const double survey_foot = 1200.0 / 3937.0;
    for (const Told& told :
         {Told{"ft", "", 0.3048}, Told{"foot", "", 0.3048}, Told{"US survey foot", "", survey_foot},
          Told{"us-ft", "", survey_foot}, Told{"m", "", 1.0}, Told{"", "", 1.0}, Told{"", "+5703", 1.0},
          Told{"", "+6360", survey_foot}, Told{"", "+8228", 0.3048}}) {
        Written written;
        written.unit = told.unit;
        written.heights_in = told.heights_in;
        written.height = [](int row, int) { return row % 2 == 0 ? 0.0 : 50.0; };
        CanopySite site(written);
        const siting::Inputs inputs = site.read();
        EXPECT_NEAR(inputs.canopy_height->at({575270.0, 5794826.5}).value(), 50.0 * told.metres, 1e-5)
            << told.unit << told.heights_in;
        EXPECT_TRUE(inputs.files.back().operation.empty()) << told.heights_in;
        EXPECT_FALSE(site.found("unknown height unit"));
    }
    Written paces;
    paces.unit = "paces";
    CanopySite site(paces);
    (void)site.read();
    EXPECT_TRUE(site.found("unknown height unit"));
}

TEST(CanopyReading, HeightsJustBelowTheGroundAreTheGround) {
    Written written;
    written.height = [](int row, int column) {
        if (row % 4 == 1) return column % 2 == 0 ? -0.3 : -2.0;
        if (row % 8 == 4) return -0.009;
        if (row % 4 == 2) return -2.01;
        if (row % 4 == 3) return column % 2 == 0 ? 150.0 : 150.1;
        return 8.0;
    };
    CanopySite site(written);
    const siting::Inputs inputs = site.read();
    const core::Raster& canopy = *inputs.canopy_height;
    std::size_t below = 0, impossible = 0;
    for (std::size_t i = 0; i < canopy.grid.size(); ++i) {
        const core::PlanePoint centre =
            canopy.grid.centre({i / canopy.grid.columns, i % canopy.grid.columns});
        const int row = static_cast<int>(std::floor(5795100.0 - centre.northing));
        const int column = static_cast<int>(std::floor(centre.easting - 575000.0));
        const double raw = written.height(row, column);
        below += raw < -0.01 && raw >= -2.0;
        impossible += raw < -2.0 || raw > 150.0;
        ASSERT_EQ(canopy.known[i] != 0, raw >= -2.0 && raw <= 150.0) << raw;
        ASSERT_EQ(canopy.values[i], canopy.known[i] == 0 ? 0.0F : static_cast<float>(std::max(raw, 0.0)));
    }
    const auto value_of = [&](const std::string& kind) {
        for (const core::Finding& finding : site.findings)
            if (finding.kind == kind) return finding.value;
        return std::string();
    };
    EXPECT_EQ(value_of("canopy below the ground"), std::to_string(below) + " cells");
    EXPECT_EQ(value_of("impossible canopy height"), std::to_string(impossible) + " cells");
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

/// Ground that rises evenly to the east and falls to the north, in metres above sea.
double ground_at(core::PlanePoint p) {
    return 120.0 + 0.1 * (p.easting - 575000.0) - 0.05 * (p.northing - 5794600.0);
}

/// A raster of the ground, in any system.
Written terrain_in(int epsg, std::array<double, 6> transform, int columns, int rows) {
    Written terrain;
    terrain.epsg = epsg;
    terrain.transform = transform;
    terrain.columns = columns;
    terrain.rows = rows;
    const auto to_plane =
        std::make_shared<geo::Transform>(geo::Crs{"EPSG:" + std::to_string(epsg)}, geo::Crs{"EPSG:32630"});
    terrain.height = [to_plane, transform](int row, int column) {
        return ground_at((*to_plane)(
            {transform[0] + (column + 0.5) * transform[1], transform[3] + (row + 0.5) * transform[5]}));
    };
    return terrain;
}

/// Crowns of 17 m on every third column of the surface.
constexpr double crown_m = 17.0;
double standing_on(int column) {
    return column % 3 == 0 ? crown_m : 0.0;
}

struct SurfaceSite : ReadingSite {
    explicit SurfaceSite(const Written& terrain) {
        surface = terrain_in(32630, surface.transform, surface.columns, surface.rows);
        surface.height = [ground = surface.height](int row, int column) {
            return ground(row, column) + standing_on(column);
        };
        write(surface, terrain);
    }
    void write(const Written& on_top, const Written& below) {
        on_top.to((folder / "dsm.tif").string());
        below.to((folder / "dtm.tif").string());
        file.surface = source_of("surface", folder / "dsm.tif");
        file.terrain = source_of("terrain", folder / "dtm.tif");
    }
    Written surface;
};

/// How far the heights read are off at most; unknown ones do not count.
double worst_of(const core::Raster& canopy) {
    double worst = 0.0;
    for (std::size_t i = 0; i < canopy.grid.size(); ++i) {
        if (canopy.known[i] == 0) continue;
        const core::PlanePoint centre =
            canopy.grid.centre({i / canopy.grid.columns, i % canopy.grid.columns});
        const double expected = standing_on(static_cast<int>(std::floor(centre.easting - 575000.0)));
        worst = std::max(worst, std::abs(static_cast<double>(canopy.values[i]) - expected));
    }
    return worst;
}

std::size_t known_in(const core::Raster& canopy) {
    return static_cast<std::size_t>(std::count(canopy.known.begin(), canopy.known.end(), 1));
}

// Ground that rises evenly is met exactly between the middles of cells, whatever the grid: what is left is
// the rounding of heights of 150 m to single precision.
TEST(SurfaceLessTerrain, IsTheHeightAboveGround) {
    for (const Written& terrain :
         {terrain_in(32630, {575000.0, 1.0, 0.0, 5795100.0, 0.0, -1.0}, 500, 500),
          terrain_in(32630, {574988.7, 5.0, 0.0, 5795111.3, 0.0, -5.0}, 110, 110),
          terrain_in(32630, {575100.1, 0.25, 0.0, 5794950.2, 0.0, -0.25}, 1400, 1000),
          terrain_in(32630, {574900.0, 3.0, 0.0, 5794500.0, 0.0, 2.0}, 250, 350),
          terrain_in(27700, {406800.0, 2.0, 0.0, 266990.0, 0.0, -2.0}, 350, 350),
          terrain_in(4326, {-1.9005, 1e-4, 0.0, 52.3015, 0.0, -5e-5}, 120, 180)}) {
        SCOPED_TRACE(told(terrain));
        SurfaceSite site(terrain);
        const siting::Inputs inputs = site.read();
        const core::Raster& canopy = *inputs.canopy_height;
        EXPECT_EQ(canopy.grid.cell, core::Metres(1.0));
        EXPECT_GT(known_in(canopy), 80'000U);
        EXPECT_LT(worst_of(canopy), 2e-4);
        EXPECT_EQ(inputs.files[inputs.files.size() - 2].role, "surface");
        EXPECT_EQ(inputs.files.back().role, "terrain");
        EXPECT_FALSE(site.found("surface and terrain do not match"));
        EXPECT_FALSE(site.found("impossible canopy height"));
    }
}

TEST(SurfaceLessTerrain, IsUnknownWhereEitherIs) {
    for (const std::optional<double> declared : {std::optional(-9999.0), std::optional<double>()}) {
        Written terrain = terrain_in(32630, {575000.0, 5.0, 0.0, 5795100.0, 0.0, -5.0}, 100, 100);
        terrain.height = [ground = terrain.height](int row, int column) {
            return column % 10 == 4 ? -9999.0 : ground(row, column);
        };
        terrain.nodata = declared;
        SurfaceSite site(terrain);
        site.surface.height = [whole = site.surface.height](int row, int column) {
            return row % 10 == 0 ? std::numeric_limits<double>::quiet_NaN() : whole(row, column);
        };
        site.write(site.surface, terrain);
        const siting::Inputs inputs = site.read();
        const core::Raster& canopy = *inputs.canopy_height;
        for (std::size_t i = 0; i < canopy.grid.size(); ++i) {
            const core::PlanePoint centre =
                canopy.grid.centre({i / canopy.grid.columns, i % canopy.grid.columns});
            const int row = static_cast<int>(std::floor(5795100.0 - centre.northing));
            const int column = static_cast<int>(std::floor(centre.easting - 575000.0));
            ASSERT_EQ(canopy.known[i] != 0, row % 10 != 0 && column / 5 % 10 != 4) << row << " " << column;
        }
        // Beside a hole the other side's height is taken: 5 m off, and so half a metre on this ground.
        EXPECT_LT(worst_of(canopy), 0.51);
        EXPECT_FALSE(site.found("impossible canopy height"));
    }
}

TEST(SurfaceLessTerrain, GroundJustAboveTheSurfaceIsTold) {
    Written terrain = terrain_in(32630, {575000.0, 1.0, 0.0, 5795100.0, 0.0, -1.0}, 500, 500);
    terrain.height = [ground = terrain.height](int row, int column) {
        return ground(row, column) + (row == 275 ? 0.4 : 0.0);
    };
    SurfaceSite site(terrain);
    const siting::Inputs inputs = site.read();
    const auto told = std::find_if(site.findings.begin(), site.findings.end(), [](const core::Finding& f) {
        return f.kind == "canopy below the ground";
    });
    ASSERT_NE(told, site.findings.end());
    EXPECT_EQ(told->place.layer, "surface");
    EXPECT_EQ(inputs.canopy_height->at({575271.5, 5794824.5}), 0.0F);
}

TEST(SurfaceLessTerrain, WhatDoesNotBelongTogetherIsDoubted) {
    const Written terrain = terrain_in(32630, {575000.0, 1.0, 0.0, 5795100.0, 0.0, -1.0}, 500, 500);
    SurfaceSite swapped(terrain);
    swapped.write(terrain, swapped.surface);
    (void)swapped.read();
    EXPECT_TRUE(swapped.found("surface and terrain do not match"));
    EXPECT_TRUE(swapped.found("impossible canopy height"));
    Written feet = terrain;  // as metres, by mistake
    feet.height = [ground = terrain.height](int row, int column) { return ground(row, column) / 0.3048; };
    Written no_ground = terrain;
    no_ground.height = [](int, int) { return 0.0; };
    for (const Written& wrong : {feet, no_ground}) {
        SurfaceSite site(wrong);
        (void)site.read();
        EXPECT_TRUE(site.found("surface and terrain do not match"));
    }
    feet.unit = "ft";
    SurfaceSite site(feet);
    EXPECT_LT(worst_of(*site.read().canopy_height), 2e-4);
    EXPECT_FALSE(site.found("surface and terrain do not match"));
}

TEST(SurfaceLessTerrain, ATerrainWithoutASystemOrElsewhereStops) {
    Written terrain = terrain_in(32630, {575000.0, 1.0, 0.0, 5795100.0, 0.0, -1.0}, 500, 500);
    terrain.epsg = 0;
    SurfaceSite site(terrain);
    EXPECT_NE(site.stop().text.find("terrain = { file"), std::string::npos);
    EXPECT_EQ(site.stop().fault, Fault::inputs);
    terrain.epsg = 32630;
    terrain.transform[0] = 600000.0;
    site.write(site.surface, terrain);
    EXPECT_NE(site.stop().text.find("dtm.tif, layer terrain: the terrain does not lie under the surface"),
              std::string::npos)
        << site.stop().text;
}

}  // namespace
}  // namespace roostward::io
