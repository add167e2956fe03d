#include <cpl_conv.h>
#include <cpl_string.h>
#include <fmt/format.h>
#include <gdal.h>
#include <ogr_srs_api.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>
#include <limits>

#include "files/memory_file.hpp"
#include "roostward/io/writers.hpp"
#include "writing/checked_file.hpp"
#include "writing/write_watch.hpp"

namespace roostward::io {

namespace {

struct OptionsCloser {
    void operator()(char** options) const noexcept { CSLDestroy(options); }
};
using Options = std::unique_ptr<char*, OptionsCloser>;

void add(Options& options, const char* key, const std::string& value) {
    options.reset(CSLSetNameValue(options.release(), key, value.c_str()));
}

using GeoTransform = std::array<double, 6>;

GeoTransform geo_transform(const core::Grid& grid) {
    const double cell = grid.cell.value();
    return {grid.north_west.easting, cell, 0.0, grid.north_west.northing, 0.0, -cell};
}

/// To 2⁻¹⁷ of itself: what a surface is good for, and a third less to store.
float rounded(float value) {
    constexpr std::uint32_t dropped = 7;
    const std::uint32_t bits = std::bit_cast<std::uint32_t>(value) + (1U << (dropped - 1U));
    return std::bit_cast<float>(bits >> dropped << dropped);
}

/// Values with not-a-number where not known.
std::vector<float> masked(const core::Raster& raster) {
    std::vector<float> values(raster.values.size(), std::numeric_limits<float>::quiet_NaN());
    for (std::size_t i = 0; i < values.size(); ++i)
        if (raster.known[i] != 0) values[i] = rounded(raster.values[i]);
    return values;
}

/// GDAL's view of values in memory, which must outlive it.
OpenDataset in_memory(std::vector<float>& values, const core::Grid& grid, const geo::Crs& crs,
                      const std::string& description) {
    OpenDataset dataset(GDALCreate(gdal_driver("MEM"), "", static_cast<int>(grid.columns),
                                   static_cast<int>(grid.rows), 0, GDT_Float32, nullptr));
    Options band;
    add(band, "DATAPOINTER", fmt::format("{}", fmt::ptr(values.data())));
    GDALAddBand(dataset.get(), GDT_Float32, band.get());
    GDALSetSpatialRef(dataset.get(), spatial_reference(crs).get());
    GDALSetGeoTransform(dataset.get(), geo_transform(grid).data());
    GDALSetMetadataItem(dataset.get(), "TIFFTAG_IMAGEDESCRIPTION", description.c_str(), nullptr);
    GDALRasterBandH only_band = GDALGetRasterBand(dataset.get(), 1);
    GDALSetRasterNoDataValue(only_band, std::numeric_limits<double>::quiet_NaN());
    GDALSetDescription(only_band, description.c_str());
    return dataset;
}

bool add_overviews(GDALDatasetH dataset, const core::Grid& grid) {
    constexpr std::size_t block = 512;
    std::vector<int> factors;
    for (std::size_t factor = 2; std::max(grid.rows, grid.columns) * 2 > block * factor; factor *= 2)
        factors.push_back(static_cast<int>(factor));
    return factors.empty() || GDALBuildOverviews(dataset, "AVERAGE", static_cast<int>(factors.size()),
                                                 factors.data(), 0, nullptr, nullptr, nullptr) == CE_None;
}

}  // namespace

void write_raster(const std::filesystem::path& file, const core::Raster& raster, const geo::Crs& crs,
                  const std::string& description, Overviews overviews) {
    const WriteWatch watch(file);
    std::vector<float> values = masked(raster);
    const OpenDataset source = in_memory(values, raster.grid, crs, description);
    Options options;
    if (overviews == Overviews::none)
        add(options, "OVERVIEWS", "NONE");
    else
        watch.check(add_overviews(source.get(), raster.grid));
    add(options, "COMPRESS", "DEFLATE");
    add(options, "LEVEL", "1");  // 4 % larger than level 6, in two thirds of the time
    add(options, "PREDICTOR", "FLOATING_POINT");
    add(options, "BIGTIFF", "IF_SAFER");
    add(options, "NUM_THREADS", CPLGetConfigOption("GDAL_NUM_THREADS", "ALL_CPUS"));
    // GDAL says that it wrote on a full disk, too; memory does not fill up so, and what follows is checked.
    const MemoryFile made;
    GDALClose(
        GDALCreateCopy(gdal_driver("COG"), made.name(), source.get(), TRUE, options.get(), nullptr, nullptr));
    watch.check(!made.bytes().empty());
    CheckedFile out(file);
    out.write(made.bytes());
    out.finish();
}

}  // namespace roostward::io
