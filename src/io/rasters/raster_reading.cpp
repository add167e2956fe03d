#include "rasters/raster_reading.hpp"

#include <gdal.h>

#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "files/gdal_reading.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/io/values.hpp"
#include "roostward/io/writers.hpp"

namespace roostward::io {

namespace {

constexpr std::size_t most_cells = 200'000'000;

/// The last band, where it tells how opaque cells are; else null.
GDALRasterBandH alpha_band(GDALDatasetH dataset) {
    GDALRasterBandH last = GDALGetRasterBand(dataset, GDALGetRasterCount(dataset));
    return GDALGetRasterColorInterpretation(last) == GCI_AlphaBand ? last : nullptr;
}

/// 0 where the first band holds nothing; null where it holds something everywhere. GDAL itself takes an alpha
/// band for a mask only where it is of bytes.
GDALRasterBandH mask_band(GDALDatasetH dataset) {
    GDALRasterBandH band = GDALGetRasterBand(dataset, 1);
    return GDALGetMaskFlags(band) == GMF_ALL_VALID ? alpha_band(dataset) : GDALGetMaskBand(band);
}

void tell_bands(const OpenRaster& raster, LayerReport& report) {
    const int heights = bands_of_values(raster);
    if (heights <= 1) return;
    report.doubt_layer("several bands", fmt::format("{}", heights), core::said("finding.several_bands"));
}

void tell_unit(GDALDatasetH dataset, LayerReport& report) {
    const std::string unit = GDALGetRasterUnitType(GDALGetRasterBand(dataset, 1));
    if (unit.empty() || micrometres_in(unit)) return;
    report.doubt_layer("unknown height unit", unit, core::said("finding.height_unit"));
}

GeoTransform geo_transform_of(GDALDatasetH dataset, const InputSource& source) {
    GeoTransform transform{};
    if (GDALGetGeoTransform(dataset, transform.data()) != CE_None) {
        cannot_use(source, core::said("error.raster_nowhere"));
    }
    return transform;
}

geo::Crs crs_of(GDALDatasetH dataset, const InputSource& source) {
    if (const std::optional<geo::Crs> crs = crs_from(GDALGetSpatialRef(dataset))) return *crs;
    if (!source.crs.empty()) return {source.crs};
    cannot_use(source, core::said("error.raster_without_crs", {{"layer", source.role}}));
}

/// Metres in the raster's own unit, with its scale and offset.
struct Units {
    double scale = 1.0;
    double offset = 0.0;
};

Units units_of(GDALRasterBandH band) {
    int has = 0;
    Units units;
    const double scale = GDALGetRasterScale(band, &has);
    if (has != 0) units.scale = scale;
    const double offset = GDALGetRasterOffset(band, &has);
    if (has != 0) units.offset = offset;
    const double metres = micrometres_in(GDALGetRasterUnitType(band)).value_or(1e6) / 1e6;
    return {units.scale * metres, units.offset * metres};
}

}  // namespace

int OpenRaster::columns() const {
    return GDALGetRasterXSize(dataset.get());
}

int OpenRaster::rows() const {
    return GDALGetRasterYSize(dataset.get());
}

bool OpenRaster::is_in(const geo::Crs& plane) const {
    return crs == plane || geo::facts_of(crs).authority == plane.definition;
}

OpenRaster open_raster(const InputSource& source) {
    OpenDataset dataset = open_dataset(source, DatasetKind::raster);
    if (GDALGetRasterCount(dataset.get()) == 0) cannot_use(source, core::said("error.no_band"));
    const GeoTransform transform = geo_transform_of(dataset.get(), source);
    geo::Crs crs = crs_of(dataset.get(), source);
    return {source, std::move(dataset), transform, std::move(crs)};
}

OpenRaster open_heights(const InputSource& source, LayerReport& report) {
    OpenRaster raster = open_raster(source);
    tell_bands(raster, report);
    tell_unit(raster.dataset.get(), report);
    return raster;
}

int bands_of_values(const OpenRaster& raster) {
    const int bands = GDALGetRasterCount(raster.dataset.get());
    return alpha_band(raster.dataset.get()) == nullptr ? bands : bands - 1;
}

siting::InputFile file_of(const OpenRaster& raster) {
    const InputSource& source = raster.source;
    return {source.role, source.file, sha256_of(source.path), raster.crs.definition, {}, {}, {}};
}

Heights heights_in(const OpenRaster& raster, const Window& w, core::Threads threads) {
    const std::size_t cells = static_cast<std::size_t>(w.rows) * static_cast<std::size_t>(w.columns);
    if (cells > most_cells) {
        cannot_use(raster.source, core::said("error.raster_too_large", {{"cells", cells}}));
    }
    Heights heights{std::vector<float>(cells), std::vector<std::uint8_t>(cells, 255)};
    const Complaints complaints;
    GDALRasterBandH band = GDALGetRasterBand(raster.dataset.get(), 1);
    bool read = GDALRasterIO(band, GF_Read, w.column, w.row, w.columns, w.rows, heights.values.data(),
                             w.columns, w.rows, GDT_Float32, 0, 0) == CE_None;
    GDALRasterBandH mask = mask_band(raster.dataset.get());
    if (read && mask != nullptr) {
        read = GDALRasterIO(mask, GF_Read, w.column, w.row, w.columns, w.rows, heights.known.data(),
                            w.columns, w.rows, GDT_Byte, 0, 0) == CE_None;
    }
    if (!read) cannot_use(raster.source, core::said("error.raster_not_whole", {{"why", complaints.first()}}));
    const Units units = units_of(band);
    core::parallel_for(cells, cells_at_a_time, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            const float metres =
                static_cast<float>(static_cast<double>(heights.values[i]) * units.scale + units.offset);
            heights.known[i] = heights.known[i] != 0 && std::isfinite(metres) ? 1 : 0;
            heights.values[i] = metres;
        }
    });
    return heights;
}

}  // namespace roostward::io
