#include "roostward/io/basemap.hpp"

#include <gdal.h>
#include <gdal_utils.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "files/gdal_reading.hpp"
#include "files/memory_file.hpp"
#include "rasters/raster_reading.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/geo/shape.hpp"

namespace roostward::io {

namespace {

/// A photograph behind a map is faded, so that its faults do not show.
constexpr const char* quality = "QUALITY=60";

struct OptionsDestroyer {
    void operator()(GDALTranslateOptions* options) const noexcept { GDALTranslateOptionsFree(options); }
    void operator()(GDALWarpAppOptions* options) const noexcept { GDALWarpAppOptionsFree(options); }
};

/// As GDAL takes arguments: they live as long as this.
class Arguments {
 public:
    explicit Arguments(std::vector<std::string> words) : words_(std::move(words)) {
        for (std::string& word : words_)
            pointers_.push_back(word.data());
        pointers_.push_back(nullptr);
    }
    [[nodiscard]] char** get() { return pointers_.data(); }

 private:
    std::vector<std::string> words_;
    std::vector<char*> pointers_;
};

OpenDataset translated(const char* to, GDALDatasetH from, std::vector<std::string> words) {
    Arguments arguments(std::move(words));
    const std::unique_ptr<GDALTranslateOptions, OptionsDestroyer> options(
        GDALTranslateOptionsNew(arguments.get(), nullptr));
    return OpenDataset(GDALTranslate(to, from, options.get(), nullptr));
}

OpenDataset warped(GDALDatasetH from, std::vector<std::string> words) {
    Arguments arguments(std::move(words));
    const std::unique_ptr<GDALWarpAppOptions, OptionsDestroyer> options(
        GDALWarpAppOptionsNew(arguments.get(), nullptr));
    return OpenDataset(GDALWarp("", nullptr, 1, &from, options.get(), nullptr));
}

bool has_palette(const OpenRaster& raster) {
    return GDALGetRasterColorTable(GDALGetRasterBand(raster.dataset.get(), 1)) != nullptr;
}

void require_picture(const OpenRaster& raster) {
    const int colours = bands_of_values(raster);
    if (colours != 1 && colours != 3 && colours != 4)
        cannot_use(raster.source, core::said("basemap.bands", {{"count", colours}}));
    for (int band = 1; band <= GDALGetRasterCount(raster.dataset.get()); ++band) {
        const GDALDataType type = GDALGetRasterDataType(GDALGetRasterBand(raster.dataset.get(), band));
        if (type == GDT_Byte) continue;
        cannot_use(raster.source,
                   core::said("basemap.type", {{"band", band}, {"type", GDALGetDataTypeName(type)}}));
    }
}

/// Where places of the plane lie in the raster: column and row, from its first corner.
class Pixels {
 public:
    Pixels(const OpenRaster& raster, const geo::Crs& plane) : way_(plane, raster.crs) {
        if (GDALInvGeoTransform(const_cast<double*>(raster.transform.data()), back_.data()) == 0)
            cannot_use(raster.source, core::said("basemap.pixels"));
    }

    /// x is the column.
    [[nodiscard]] core::PlanePoint of(core::PlanePoint place) const {
        const core::PlanePoint there = way_(place);
        core::PlanePoint pixel;
        GDALApplyGeoTransform(const_cast<double*>(back_.data()), there.easting, there.northing,
                              &pixel.easting, &pixel.northing);
        return pixel;
    }

    /// The side of a square in the plane that is as large as a pixel there.
    [[nodiscard]] core::Metres size_at(core::PlanePoint place) const {
        const core::PlanePoint here = of(place);
        const core::PlanePoint east = of({place.easting + 1.0, place.northing});
        const core::PlanePoint north = of({place.easting, place.northing + 1.0});
        const double in_a_square_metre = (east.easting - here.easting) * (north.northing - here.northing) -
                                         (east.northing - here.northing) * (north.easting - here.easting);
        return core::Metres(1.0 / std::sqrt(std::abs(in_a_square_metre)));
    }

 private:
    geo::Transform way_;
    GeoTransform back_{};
};

core::PlanePoint middle_of(const core::Box& box) {
    return {0.5 * (box.south_west.easting + box.north_east.easting),
            0.5 * (box.south_west.northing + box.north_east.northing)};
}

/// Looks at the corners, the middles of the sides and the middle of the ground.
void require_touch(const OpenRaster& raster, const Pixels& pixels, const core::Box& ground) {
    const core::PlanePoint middle = middle_of(ground);
    std::vector<core::PlanePoint> places;
    for (const double east : {ground.south_west.easting, middle.easting, ground.north_east.easting})
        for (const double north : {ground.south_west.northing, middle.northing, ground.north_east.northing})
            places.push_back(pixels.of({east, north}));
    const core::Box around = *geo::box_of(places);
    const bool known = std::ranges::none_of(places, [](core::PlanePoint pixel) {
        return std::isnan(pixel.easting) || std::isnan(pixel.northing);
    });
    if (known && around.south_west.easting < raster.columns() && around.south_west.northing < raster.rows() &&
        around.north_east.easting > 0.0 && around.north_east.northing > 0.0)
        return;
    cannot_use(raster.source, core::said("basemap.elsewhere", {{"east", std::llround(middle.easting)},
                                                               {"north", std::llround(middle.northing)}}));
}

OpenRaster open_picture(const InputSource& source) {
    OpenRaster raster = open_raster(source);
    require_picture(raster);
    return raster;
}

/// Its colours as bands of bytes, and its opacity behind them where it has that. It reads from `raster`.
OpenDataset colours_of(const OpenRaster& raster) {
    std::vector<std::string> words{"-of", "VRT"};
    if (has_palette(raster)) {
        words.insert(words.end(), {"-expand", "rgba"});
    } else {
        const int bands = GDALGetRasterCount(raster.dataset.get()), colours = bands_of_values(raster);
        for (int band = 1; band <= std::min(colours, 3); ++band)
            words.insert(words.end(), {"-b", std::to_string(band)});
        if (bands > colours) words.insert(words.end(), {"-b", std::to_string(bands)});
    }
    return translated("", raster.dataset.get(), std::move(words));
}

/// On the grid, with a last band that tells how opaque pixels are.
OpenDataset brought_to(const core::Grid& grid, const geo::Crs& plane, const OpenRaster& raster,
                       GDALDatasetH colours, bool smaller) {
    const core::Box box = grid.box();
    const auto metres = [](double value) { return fmt::format("{:.17g}", value); };
    return warped(colours, {"-of", "MEM", "-s_srs", raster.crs.definition, "-t_srs", plane.definition, "-te",
                            metres(box.south_west.easting), metres(box.south_west.northing),
                            metres(box.north_east.easting), metres(box.north_east.northing), "-ts",
                            std::to_string(grid.columns), std::to_string(grid.rows), "-r",
                            smaller ? "average" : "bilinear", "-dstalpha"});
}

std::vector<std::uint8_t> encoded(GDALDatasetH picture) {
    std::vector<std::string> words{"-of", "WEBP", "-co", quality};
    if (GDALGetRasterCount(picture) == 2)  // grey
        words.insert(words.end(), {"-b", "1", "-b", "1", "-b", "1", "-b", "2"});
    const ThreadOption no_side_file("GDAL_PAM_ENABLED", "NO");
    const MemoryFile file;
    if (!translated(file.name(), picture, std::move(words))) return {};
    const std::string_view bytes = file.bytes();
    return {bytes.begin(), bytes.end()};
}

core::Grid pixels_over(const core::Box& ground, core::Metres cell) {
    const auto count = [&](double metres) {
        return static_cast<std::size_t>(std::max(1.0, std::ceil(metres / cell.value())));
    };
    return {{ground.south_west.easting, ground.north_east.northing},
            cell,
            count(ground.north_east.northing - ground.south_west.northing),
            count(ground.north_east.easting - ground.south_west.easting)};
}

}  // namespace

siting::InputFile look_at_basemap(const InputSource& source, const geo::Crs& plane, const core::Box& site) {
    const OpenRaster raster = open_picture(source);
    require_touch(raster, Pixels(raster, plane), site);
    siting::InputFile file = file_of(raster);
    const geo::Transform way(raster.crs, plane);
    if (!raster.is_in(plane)) file.operation = way.operation();
    file.accuracy = way.accuracy();
    return file;
}

core::Picture read_basemap(const InputSource& source, const geo::Crs& plane, const core::Box& ground,
                           PictureLimits limits) {
    const OpenRaster raster = open_picture(source);
    const Pixels pixels(raster, plane);
    require_touch(raster, pixels, ground);
    const core::Metres own = pixels.size_at(middle_of(ground));
    const Complaints complaints;
    const OpenDataset colours = colours_of(raster);
    core::Metres cell = own;
    while (pixels_over(ground, cell).size() > limits.pixels)
        cell = cell * 1.1;
    // A file of fewer pixels is smaller; how much, no one knows before.
    for (;; cell = cell * 1.25) {
        const core::Grid grid = pixels_over(ground, cell);
        const OpenDataset picture =
            colours ? brought_to(grid, plane, raster, colours.get(), cell > own) : nullptr;
        std::vector<std::uint8_t> bytes = picture ? encoded(picture.get()) : std::vector<std::uint8_t>();
        if (bytes.empty() || !complaints.first().empty())
            cannot_use(source, core::said("basemap.unreadable", {{"why", complaints.first()}}));
        if (bytes.size() <= limits.bytes) return {grid, "image/webp", std::move(bytes)};
    }
}

}  // namespace roostward::io
