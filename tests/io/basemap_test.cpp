#include "roostward/io/basemap.hpp"

#include <cpl_vsi.h>
#include <gdal.h>
#include <gtest/gtest.h>
#include <ogr_srs_api.h>

#include <array>
#include <cmath>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "io/reading_site.hpp"
#include "roostward/io/recognise.hpp"

namespace roostward::io {
namespace {

using testing::ReadingSite;
using testing::source_of;

struct Closer {
    void operator()(void* dataset) const { GDALClose(dataset); }
};
using Dataset = std::unique_ptr<void, Closer>;

using Colour = std::array<int, 4>;  // red, green, blue, opacity

const geo::Crs plane{"EPSG:32630"};
/// About the pass and the watch of ReadingSite.
const core::Box ground{{575170.0, 5794725.0}, {575370.0, 5794925.0}};

Colour red_in_the_west(int row, int column) {
    return column < 250 ? Colour{200, 40, 30, 255} : Colour{20, 60, 180, row < 100 ? 0 : 255};
}

/// A picture as GDAL writes it.
struct Drawn {
    std::array<double, 6> transform{575020.0, 1.0, 0.0, 5795075.0, 0.0, -1.0};
    int columns = 500;
    int rows = 500;
    int bands = 3;
    int epsg = 32630;
    bool placed = true;
    bool last_is_opacity = false;
    GDALDataType type = GDT_Byte;
    std::vector<Colour> palette;
    std::function<Colour(int row, int column)> colour = red_in_the_west;

    void to(const std::string& file) const {
        GDALAllRegister();
        const Dataset dataset(
            GDALCreate(GDALGetDriverByName("GTiff"), file.c_str(), columns, rows, bands, type, nullptr));
        if (placed) GDALSetGeoTransform(dataset.get(), const_cast<double*>(transform.data()));
        if (epsg != 0) {
            OGRSpatialReferenceH crs = OSRNewSpatialReference(nullptr);
            OSRImportFromEPSG(crs, epsg);
            GDALSetSpatialRef(dataset.get(), crs);
            OSRDestroySpatialReference(crs);
        }
        if (!palette.empty()) {
            GDALColorTableH table = GDALCreateColorTable(GPI_RGB);
            for (std::size_t i = 0; i < palette.size(); ++i) {
                const GDALColorEntry entry{static_cast<short>(palette[i][0]),
                                           static_cast<short>(palette[i][1]),
                                           static_cast<short>(palette[i][2]), 255};
                GDALSetColorEntry(table, static_cast<int>(i), &entry);
            }
            GDALSetRasterColorTable(GDALGetRasterBand(dataset.get(), 1), table);
            GDALDestroyColorTable(table);
        }
        if (last_is_opacity)
            GDALSetRasterColorInterpretation(GDALGetRasterBand(dataset.get(), bands), GCI_AlphaBand);
        else if (bands == 4)
            GDALSetRasterColorInterpretation(GDALGetRasterBand(dataset.get(), 4), GCI_Undefined);
        std::vector<int> line(static_cast<std::size_t>(columns));
        for (int band = 0; band < bands; ++band)
            for (int row = 0; row < rows; ++row) {
                const std::size_t part =
                    last_is_opacity && band == bands - 1 ? 3 : static_cast<std::size_t>(band);
                for (int column = 0; column < columns; ++column)
                    line[static_cast<std::size_t>(column)] = colour(row, column)[part];
                ASSERT_EQ(GDALRasterIO(GDALGetRasterBand(dataset.get(), band + 1), GF_Write, 0, row, columns,
                                       1, line.data(), columns, 1, GDT_Int32, 0, 0),
                          CE_None);
            }
    }
};

struct BasemapSite : ReadingSite {
    explicit BasemapSite(const Drawn& drawn) {
        drawn.to((folder / "ortho.tif").string());
        file.basemap = source_of("basemap", folder / "ortho.tif");
    }
    [[nodiscard]] core::Picture picture(PictureLimits limits = {}) const {
        return read_basemap(*file.basemap, plane, ground, limits);
    }
};

/// What a browser would see of it.
class Shown {
 public:
    explicit Shown(const core::Picture& picture) : grid_(picture.grid) {
        std::vector<std::uint8_t> bytes = picture.bytes;
        VSIFCloseL(VSIFileFromMemBuffer(name_, bytes.data(), bytes.size(), FALSE));
        const Dataset dataset(GDALOpen(name_, GA_ReadOnly));
        EXPECT_EQ(GDALGetRasterXSize(dataset.get()), static_cast<int>(grid_.columns));
        EXPECT_EQ(GDALGetRasterYSize(dataset.get()), static_cast<int>(grid_.rows));
        bands_ = GDALGetRasterCount(dataset.get());
        for (int band = 0; band < 4; ++band) {
            values_[static_cast<std::size_t>(band)].assign(grid_.size(), 255);
            if (band >= bands_) continue;
            EXPECT_EQ(
                GDALRasterIO(GDALGetRasterBand(dataset.get(), band + 1), GF_Read, 0, 0,
                             static_cast<int>(grid_.columns), static_cast<int>(grid_.rows),
                             values_[static_cast<std::size_t>(band)].data(), static_cast<int>(grid_.columns),
                             static_cast<int>(grid_.rows), GDT_Int32, 0, 0),
                CE_None);
        }
        VSIUnlink(name_);
    }
    [[nodiscard]] Colour at(core::PlanePoint place) const {
        const std::size_t i = grid_.index(grid_.cell_of(place).value());
        return {values_[0][i], values_[1][i], values_[2][i], values_[3][i]};
    }

 private:
    static constexpr const char* name_ = "/vsimem/basemap-test.webp";
    core::Grid grid_;
    int bands_ = 0;
    std::array<std::vector<int>, 4> values_;
};

/// The image is compressed: a colour may be off by some of 255, the opacity may not.
void expect_like(const Colour& seen, const Colour& wanted, int most = 16) {
    EXPECT_EQ(seen[3], wanted[3]);
    if (wanted[3] == 0) return;
    for (std::size_t i = 0; i < 3; ++i)
        EXPECT_NEAR(seen[i], wanted[i], most) << i;
}

constexpr Colour red{200, 40, 30, 255}, blue{20, 60, 180, 255};

TEST(Basemap, LiesWhereItsPixelsLie) {
    const BasemapSite site(Drawn{});
    const core::Picture picture = site.picture();
    EXPECT_EQ(picture.media_type, "image/webp");
    EXPECT_NEAR(picture.grid.cell.value(), 1.0, 1e-6);
    EXPECT_GE(picture.grid.box().north_east.easting, ground.north_east.easting);
    const Shown shown(picture);
    for (const double north : {5794730.0, 5794800.0, 5794920.0}) {
        expect_like(shown.at({575262.0, north}), red);
        expect_like(shown.at({575278.0, north}), blue);
    }
}

TEST(Basemap, OfAnotherSystemIsBroughtIntoThePlane) {
    Drawn drawn;
    drawn.epsg = 27700;
    drawn.transform = {406900.0, 1.0, 0.0, 266900.0, 0.0, -1.0};
    const BasemapSite site(drawn);
    const Shown shown(site.picture());
    const geo::Transform way(plane, {"EPSG:27700"});
    int compared = 0;
    for (double east = 575175.0; east < 575365.0; east += 10.0)
        for (double north = 5794730.0; north < 5794920.0; north += 10.0) {
            const core::PlanePoint there = way({east, north});
            if (std::abs(there.easting - 407150.0) < 8.0 || there.northing < 266402.0) continue;
            expect_like(shown.at({east, north}), there.easting < 407150.0 ? red : blue);
            ++compared;
        }
    EXPECT_GT(compared, 100);
}

TEST(Basemap, IsClearWhereTheFileHasNothing) {
    Drawn drawn;
    drawn.transform = {575270.0, 1.0, 0.0, 5795075.0, 0.0, -1.0};  // begins in the middle of the ground
    drawn.bands = 4;
    drawn.last_is_opacity = true;
    drawn.colour = [](int row, int) { return Colour{90, 140, 60, row < 250 ? 255 : 0}; };
    const BasemapSite site(drawn);
    const Shown shown(site.picture());
    expect_like(shown.at({575200.0, 5794900.0}), {0, 0, 0, 0});
    expect_like(shown.at({575300.0, 5794900.0}), {90, 140, 60, 255});
    expect_like(shown.at({575300.0, 5794800.0}), {0, 0, 0, 0});
}

TEST(Basemap, GreyAndPalettesAndInfraredAreRead) {
    Drawn grey;
    grey.bands = 1;
    expect_like(Shown(BasemapSite(grey).picture()).at({575262.0, 5794800.0}), {200, 200, 200, 255});
    Drawn palette;
    palette.bands = 1;
    palette.palette = {{10, 20, 30, 255}, {220, 200, 40, 255}};
    palette.colour = [](int, int column) { return Colour{column < 250 ? 1 : 0}; };
    const Shown colours(BasemapSite(palette).picture());
    expect_like(colours.at({575262.0, 5794800.0}), {220, 200, 40, 255});
    expect_like(colours.at({575278.0, 5794800.0}), {10, 20, 30, 255});
    Drawn infrared;
    infrared.bands = 4;
    infrared.colour = [](int, int) { return Colour{60, 120, 80, 0}; };
    expect_like(Shown(BasemapSite(infrared).picture()).at({575262.0, 5794800.0}), {60, 120, 80, 255});
}

TEST(Basemap, KeepsToItsLimits) {
    Drawn noise;
    noise.transform = {575020.0, 0.5, 0.0, 5795075.0, 0.0, -0.5};
    noise.columns = noise.rows = 1000;
    std::uint32_t state = 1;
    noise.colour = [&state](int, int) {
        state = state * 1664525U + 1013904223U;
        return Colour{static_cast<int>(state >> 24U), static_cast<int>(state >> 16U & 255U),
                      static_cast<int>(state >> 8U & 255U), 255};
    };
    const BasemapSite site(noise);
    EXPECT_EQ(site.picture().grid.columns, 400U);
    const core::Picture few = site.picture({10'000, 700'000});
    EXPECT_LE(few.grid.size(), 10'000U);
    EXPECT_GT(few.grid.size(), 7'000U);
    const core::Picture light = site.picture({2'000'000, 20'000});
    EXPECT_LE(light.bytes.size(), 20'000U);
    EXPECT_GT(light.bytes.size(), 8'000U);
    EXPECT_EQ(light.bytes, site.picture({2'000'000, 20'000}).bytes);
}

TEST(Basemap, StandsInTheListOfFiles) {
    BasemapSite site(Drawn{});
    const siting::InputFile file = site.read().files.back();
    EXPECT_EQ(file.role, "basemap");
    EXPECT_EQ(file.file, "ortho.tif");
    EXPECT_EQ(file.sha256.size(), 64U);
    EXPECT_EQ(file.crs, "EPSG:32630");
    EXPECT_TRUE(site.findings.empty());
}

TEST(Basemap, WhatIsNoPictureOfTheSiteStopsReading) {
    const auto stop = [](const Drawn& drawn) {
        BasemapSite site(drawn);
        const ReadingSite::Stop stopped = site.stop();
        EXPECT_EQ(stopped.fault, core::Fault::inputs);
        EXPECT_NE(stopped.text.find("ortho.tif"), std::string::npos) << stopped.text;
        return stopped.text;
    };
    const auto expect_says = [](const std::string& text, std::string_view words) {
        EXPECT_NE(text.find(words), std::string::npos) << text;
    };
    Drawn drawn;
    drawn.epsg = 0;
    expect_says(stop(drawn), "basemap = { file = \"…\", crs = \"EPSG:…\" }");
    drawn = {};
    drawn.placed = false;
    expect_says(stop(drawn), "does not say where it lies");
    drawn = {};
    drawn.transform[0] = 600000.0;
    expect_says(stop(drawn), "does not cover the site");
    drawn = {};
    drawn.epsg = 27700;  // its numbers are of the other system
    expect_says(stop(drawn), "does not cover the site");
    drawn = {};
    drawn.type = GDT_UInt16;
    expect_says(stop(drawn), "band 1 is of type UInt16");
    drawn.bands = 1;
    drawn.type = GDT_Float32;
    expect_says(stop(drawn), "If it holds heights, it is no picture");
    drawn = {};
    drawn.bands = 2;
    expect_says(stop(drawn), "this has 2");
}

TEST(Basemap, AFileThatIsCutOffIsNotDrawn) {
    const BasemapSite site(Drawn{});
    std::filesystem::resize_file(site.folder / "ortho.tif", 100'000);
    EXPECT_THROW((void)site.picture(), core::Error);
}

TEST(Basemap, ASystemThatTheFileDoesNotSayIsTakenFromTheSiteFile) {
    Drawn drawn;
    drawn.epsg = 0;
    BasemapSite site(drawn);
    site.file.basemap->crs = "EPSG:32630";
    EXPECT_EQ(site.read().files.back().crs, "EPSG:32630");
    expect_like(Shown(site.picture()).at({575262.0, 5794800.0}), red);
}

TEST(Basemap, IsRecognisedByItsBandsOfColours) {
    const BasemapSite site(Drawn{});
    const Recognised found = recognise({(site.folder / "ortho.tif").string()}, site.folder / "park");
    ASSERT_EQ(found.layers.size(), 1U);
    EXPECT_EQ(found.layers[0].source.role, "basemap");
}

TEST(Basemap, AFileThatIsNoRasterStopsReading) {
    ReadingSite site;
    site.put("ortho.tif", "not a picture at all");
    site.file.basemap = source_of("basemap", site.folder / "ortho.tif");
    EXPECT_NE(site.stop().text.find("cannot be read as raster data"), std::string::npos);
}

}  // namespace
}  // namespace roostward::io
