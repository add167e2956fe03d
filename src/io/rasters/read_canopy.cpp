#include "rasters/read_canopy.hpp"

#include <gdal.h>
#include <gdal_utils.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <string>
#include <utility>

#include "files/gdal_reading.hpp"
#include "rasters/canopy_doubts.hpp"
#include "rasters/raster_reading.hpp"
#include "rasters/terrain_under.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::io {

namespace {

constexpr core::Metres margin{200.0};

struct WarpOptionsDestroyer {
    void operator()(GDALWarpAppOptions* options) const noexcept { GDALWarpAppOptionsFree(options); }
};

bool is_square_and_north_up(const GeoTransform& t) {
    return t[2] == 0.0 && t[4] == 0.0 && t[1] > 0.0 && t[5] < 0.0 && std::abs(t[1] + t[5]) <= 1e-9 * t[1];
}

/// A view of the raster in the plane; nothing is computed before cells are asked for. It reads from `raster`.
OpenRaster seen_in(const geo::Crs& plane, const OpenRaster& raster) {
    const std::array<const char*, 15> arguments = {"-of",        "VRT",
                                                   "-s_srs",     raster.crs.definition.c_str(),
                                                   "-t_srs",     plane.definition.c_str(),
                                                   "-r",         "near",
                                                   "-ot",        "Float32",
                                                   "-dstnodata", "nan",
                                                   "-et",        "0",
                                                   nullptr};
    const std::unique_ptr<GDALWarpAppOptions, WarpOptionsDestroyer> options(
        GDALWarpAppOptionsNew(const_cast<char**>(arguments.data()), nullptr));
    const Complaints complaints;
    GDALDatasetH dataset = raster.dataset.get();
    OpenDataset warped(GDALWarp("", nullptr, 1, &dataset, options.get(), nullptr));
    GeoTransform transform{};
    if (!warped || GDALGetGeoTransform(warped.get(), transform.data()) != CE_None)
        cannot_use(raster.source, core::said("error.raster_into_plane",
                                             {{"crs", plane.definition}, {"why", complaints.first()}}));
    return {raster.source, std::move(warped), transform, plane};
}

std::string told(const core::Box& box) {
    return core::said("raster.box", {{"west", box.south_west.easting},
                                     {"east", box.north_east.easting},
                                     {"south", box.south_west.northing},
                                     {"north", box.north_east.northing}});
}

/// The cells that touch the box.
Window window_over(const core::Box& box, const OpenRaster& raster) {
    const GeoTransform& t = raster.transform;
    const int width = raster.columns();
    const int height = raster.rows();
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
        cannot_use(raster.source,
                   core::said("error.raster_elsewhere", {{"raster", told(whole)}, {"site", told(box)}}));
    }
    return {first, top, last - first, bottom - top};
}

/// How the raster's cells come into the plane.
void note_operation(siting::InputFile& file, const OpenRaster& raster, const geo::Crs& plane,
                    const std::string& resampled) {
    const geo::Transform way(raster.crs, plane);
    file.operation = raster.is_in(plane) ? resampled : way.operation() + ", " + resampled;
    file.accuracy = way.accuracy();
}

core::Raster cells_around(const core::Box& site, const OpenRaster& raster, core::Threads threads) {
    const Window w = window_over(site, raster);
    Heights heights = heights_in(raster, w, threads);
    const GeoTransform& t = raster.transform;
    const core::Grid grid{{t[0] + w.column * t[1], t[3] + w.row * t[5]},
                          core::Metres(t[1]),
                          static_cast<std::size_t>(w.rows),
                          static_cast<std::size_t>(w.columns)};
    return {grid, std::move(heights.values), std::move(heights.known)};
}

/// A raster around the site, on square cells in the plane.
core::Raster read_around(const core::Box& site, const InputSource& source, const geo::Crs& plane,
                         core::Threads threads, LayerReport& report, std::vector<siting::InputFile>& files) {
    const OpenRaster raster = open_heights(source, report);
    siting::InputFile& file = files.emplace_back(file_of(raster));
    if (raster.is_in(plane) && is_square_and_north_up(raster.transform))
        return cells_around(site, raster, threads);
    note_operation(file, raster, plane, core::said("raster.to_the_nearest"));
    return cells_around(site, seen_in(plane, raster), threads);
}

void take_away(core::Raster& height, const core::Raster& terrain, core::Threads threads) {
    core::parallel_for(height.values.size(), cells_at_a_time, threads,
                       [&](std::size_t begin, std::size_t end) {
                           for (std::size_t i = begin; i < end; ++i) {
                               height.values[i] -= terrain.values[i];
                               height.known[i] &= terrain.known[i];
                           }
                       });
}

ThreadOption decoders_of(core::Threads threads) {
    return {"GDAL_NUM_THREADS", threads.count == 0 ? "ALL_CPUS" : std::to_string(threads.count)};
}

}  // namespace

CanopyReading read_canopy(const InputSource& source, const geo::Crs& plane, const core::Box& site,
                          core::Threads threads) {
    const ThreadOption decoders = decoders_of(threads);
    LayerReport report(source.file, source.role);
    CanopyReading canopy;
    canopy.height = read_around(site, source, plane, threads, report, canopy.files);
    tell_canopy_doubts(canopy.height, HeightsFrom::canopy, report);
    keep_likely_heights(canopy.height, HeightsFrom::canopy, threads, report);
    canopy.findings = report.findings();
    return canopy;
}

CanopyReading read_surface_less_terrain(const InputSource& surface, const InputSource& terrain,
                                        const geo::Crs& plane, const core::Box& site, core::Threads threads) {
    const ThreadOption decoders = decoders_of(threads);
    LayerReport of_surface(surface.file, surface.role), of_terrain(terrain.file, terrain.role);
    CanopyReading canopy;
    canopy.height = read_around(site, surface, plane, threads, of_surface, canopy.files);
    const OpenRaster ground = open_heights(terrain, of_terrain);
    note_operation(canopy.files.emplace_back(file_of(ground)), ground, plane,
                   core::said("raster.in_proportion"));
    canopy.ground = terrain_under(canopy.height.grid, ground, plane, threads);
    take_away(canopy.height, *canopy.ground, threads);
    tell_canopy_doubts(canopy.height, HeightsFrom::surface_less_terrain, of_surface);
    keep_likely_heights(canopy.height, HeightsFrom::surface_less_terrain, threads, of_surface);
    canopy.findings = of_surface.findings();
    const core::Findings more = of_terrain.findings();
    canopy.findings.insert(canopy.findings.end(), more.begin(), more.end());
    return canopy;
}

}  // namespace roostward::io
