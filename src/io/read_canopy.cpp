#include "read_canopy.hpp"

#include <cpl_conv.h>
#include <gdal.h>
#include <gdal_utils.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <memory>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "canopy_doubts.hpp"
#include "gdal_reading.hpp"
#include "roostward/io/values.hpp"
#include "roostward/io/writers.hpp"

namespace roostward::io {

namespace {

constexpr core::Metres margin{200.0};
constexpr std::size_t most_cells = 200'000'000;
constexpr std::size_t piece = std::size_t{1} << 18U;  ///< cells that one thread looks through at a time
constexpr float lowest_m = -100.0F;
constexpr float highest_m = 150.0F;

using GeoTransform = std::array<double, 6>;

struct WarpOptionsDestroyer {
    void operator()(GDALWarpAppOptions* options) const noexcept { GDALWarpAppOptionsFree(options); }
};

GeoTransform geo_transform_of(GDALDatasetH dataset, const InputSource& source) {
    GeoTransform transform{};
    if (GDALGetGeoTransform(dataset, transform.data()) != CE_None) {
        cannot_use(source,
                   "the raster does not say where it lies. Export it with its georeference, as GeoTIFF.");
    }
    return transform;
}

bool is_square_and_north_up(const GeoTransform& t) {
    return t[2] == 0.0 && t[4] == 0.0 && t[1] > 0.0 && t[5] < 0.0 && std::abs(t[1] + t[5]) <= 1e-9 * t[1];
}

geo::Crs crs_of(GDALDatasetH dataset, const InputSource& source) {
    if (const std::optional<geo::Crs> crs = crs_from(GDALGetSpatialRef(dataset))) return *crs;
    if (!source.crs.empty()) return {source.crs};
    cannot_use(source,
               "the raster does not say in which coordinate reference system it is. Say it in the site file: "
               "canopy = "
               "{ file = \"…\", crs = \"EPSG:…\" }.");
}

/// A view of the raster in the plane; nothing is computed before cells are asked for.
OpenDataset in_plane(GDALDatasetH dataset, const geo::Crs& from, const geo::Crs& plane,
                     const InputSource& source) {
    const std::array<const char*, 15> arguments = {"-of",        "VRT",
                                                   "-s_srs",     from.definition.c_str(),
                                                   "-t_srs",     plane.definition.c_str(),
                                                   "-r",         "near",
                                                   "-ot",        "Float32",
                                                   "-dstnodata", "nan",
                                                   "-et",        "0",
                                                   nullptr};
    const std::unique_ptr<GDALWarpAppOptions, WarpOptionsDestroyer> options(
        GDALWarpAppOptionsNew(const_cast<char**>(arguments.data()), nullptr));
    const Complaints complaints;
    OpenDataset warped(GDALWarp("", nullptr, 1, &dataset, options.get(), nullptr));
    if (!warped)
        cannot_use(source, fmt::format("the raster cannot be brought into {}: {}", plane.definition,
                                       complaints.first()));
    return warped;
}

struct Window {
    int column = 0;
    int row = 0;
    int columns = 0;
    int rows = 0;
};

std::string told(const core::Box& box) {
    return fmt::format("{:.0f}–{:.0f} east, {:.0f}–{:.0f} north", box.south_west.easting,
                       box.north_east.easting, box.south_west.northing, box.north_east.northing);
}

/// The cells that touch the box.
Window window_over(const core::Box& box, const GeoTransform& t, GDALDatasetH dataset,
                   const InputSource& source) {
    const int width = GDALGetRasterXSize(dataset);
    const int height = GDALGetRasterYSize(dataset);
    const core::Box whole{{t[0], t[3] + t[5] * height}, {t[0] + t[1] * width, t[3]}};
    const auto cell_at = [](double offset, double cell, int most) {
        return static_cast<int>(std::clamp(std::floor(offset / cell), 0.0, static_cast<double>(most)));
    };
    const core::Box around = core::widened(box, margin);
    const int first = cell_at(around.south_west.easting - t[0], t[1], width);
    const int last = cell_at(around.north_east.easting - t[0] + t[1], t[1], width);
    const int top = cell_at(around.north_east.northing - t[3], t[5], height);
    const int bottom = cell_at(around.south_west.northing - t[3] + t[5], t[5], height);
    const bool apart = whole.north_east.easting < box.south_west.easting ||
                       whole.south_west.easting > box.north_east.easting ||
                       whole.north_east.northing < box.south_west.northing ||
                       whole.south_west.northing > box.north_east.northing;
    if (apart || last <= first || bottom <= top) {
        cannot_use(
            source,
            fmt::format(
                "the raster does not cover the site: it lies at {}, and trees and watches at {} (metres in "
                "the planning system). Give the raster of this site, or correct its crs.",
                told(whole), told(box)));
    }
    return {first, top, last - first, bottom - top};
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

core::Raster cells_in(GDALDatasetH dataset, const Window& w, const GeoTransform& t, const InputSource& source,
                      core::Threads threads) {
    const auto rows = static_cast<std::size_t>(w.rows);
    const auto columns = static_cast<std::size_t>(w.columns);
    if (rows * columns > most_cells) {
        cannot_use(source, fmt::format("the raster has {} cells over the site, and 200 million can be used. "
                                       "Cut it to the site or make "
                                       "its cells larger.",
                                       rows * columns));
    }
    core::Raster raster{
        {{t[0] + w.column * t[1], t[3] + w.row * t[5]}, core::Metres(t[1]), rows, columns}, {}, {}};
    raster.values.resize(rows * columns);
    raster.known.assign(rows * columns, 255);
    const Complaints complaints;
    GDALRasterBandH band = GDALGetRasterBand(dataset, 1);
    bool read = GDALRasterIO(band, GF_Read, w.column, w.row, w.columns, w.rows, raster.values.data(),
                             w.columns, w.rows, GDT_Float32, 0, 0) == CE_None;
    if (read && GDALGetMaskFlags(band) != GMF_ALL_VALID) {
        read = GDALRasterIO(GDALGetMaskBand(band), GF_Read, w.column, w.row, w.columns, w.rows,
                            raster.known.data(), w.columns, w.rows, GDT_Byte, 0, 0) == CE_None;
    }
    if (!read)
        cannot_use(source, fmt::format("the raster cannot be read to its end: {}. Copy or export it again.",
                                       complaints.first()));
    const Units units = units_of(band);
    core::parallel_for(raster.values.size(), piece, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            const float metres =
                static_cast<float>(static_cast<double>(raster.values[i]) * units.scale + units.offset);
            raster.known[i] = raster.known[i] != 0 && std::isfinite(metres) ? 1 : 0;
            raster.values[i] = metres;
        }
    });
    return raster;
}

void forget_absurd_heights(core::Raster& raster, core::Threads threads) {
    core::parallel_for(raster.values.size(), piece, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            if (raster.values[i] < lowest_m || raster.values[i] > highest_m) raster.known[i] = 0;
            if (raster.known[i] == 0) raster.values[i] = 0.0F;
        }
    });
}

}  // namespace

CanopyReading read_canopy(const InputSource& source, const geo::Crs& plane, const core::Box& site,
                          core::Threads threads) {
    const ThreadOption decoders("GDAL_NUM_THREADS",
                                threads.count == 0 ? "ALL_CPUS" : std::to_string(threads.count));
    OpenDataset dataset = open_dataset(source, DatasetKind::raster);
    CanopyReading canopy{{}, {source.role, source.file, sha256_of(source.path), {}, {}, {}, {}}, {}};
    LayerReport report(source.file, source.role);
    if (GDALGetRasterCount(dataset.get()) == 0)
        cannot_use(source, "the raster has no band. Export it again.");
    if (GDALGetRasterCount(dataset.get()) > 1) {
        report.doubt_layer(
            "several bands", fmt::format("{}", GDALGetRasterCount(dataset.get())),
            "the first band was taken as height above ground: check that it is, and no picture");
    }
    GeoTransform transform = geo_transform_of(dataset.get(), source);
    const geo::Crs own = crs_of(dataset.get(), source);
    canopy.file.crs = own.definition;
    const bool same = own == plane || geo::facts_of(own).authority == plane.definition;
    OpenDataset turned;
    if (!same || !is_square_and_north_up(transform)) {
        const geo::Transform way(own, plane);
        canopy.file.operation =
            same ? "cells resampled to the nearest" : way.operation() + ", cells resampled to the nearest";
        canopy.file.accuracy = way.accuracy();
        turned = in_plane(dataset.get(), own, plane, source);
        transform = geo_transform_of(turned.get(), source);
    }
    GDALDatasetH used = turned ? turned.get() : dataset.get();
    canopy.height = cells_in(used, window_over(site, transform, used, source), transform, source, threads);
    tell_canopy_doubts(canopy.height, report);
    forget_absurd_heights(canopy.height, threads);
    canopy.findings = report.findings();
    return canopy;
}

}  // namespace roostward::io
