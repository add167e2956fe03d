#include <gdal.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <string_view>

#include "files/gdal_reading.hpp"
#include "recognise/recognise_roles.hpp"
#include "recognise/recognise_words.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::io {

namespace {

struct HeightRange {
    double least = 0.0, most = 0.0;
};

/// From some cells of the first band.
std::optional<HeightRange> heights_of(GDALDatasetH dataset) {
    const Complaints complaints;
    HeightRange range;
    double mean = 0.0, deviation = 0.0;
    if (GDALGetRasterStatistics(GDALGetRasterBand(dataset, 1), 1, 1, &range.least, &range.most, &mean,
                                &deviation) != CE_None)
        return std::nullopt;
    return range;
}

bool looks_like_a_picture(GDALDatasetH dataset) {
    GDALRasterBandH first = GDALGetRasterBand(dataset, 1);
    return GDALGetRasterDataType(first) == GDT_Byte &&
           (GDALGetRasterCount(dataset) >= 3 || GDALGetRasterColorTable(first) != nullptr);
}

}  // namespace

bool is_raster(const InputSource& source) {
    constexpr std::array<std::string_view, 8> kinds = {"tif", "tiff", "vrt", "asc",
                                                       "img", "jp2",  "xyz", "adf"};
    return std::ranges::find(kinds, extension_of(source)) != kinds.end();
}

RoleGuess role_of_raster(const InputSource& source) {
    const OpenDataset dataset = open_dataset(source, DatasetKind::raster);
    if (looks_like_a_picture(dataset.get())) return {"basemap", 4.0, core::said("basemap.recognised"), ""};
    const auto range = heights_of(dataset.get());
    const bool above_ground =
        range && range->least > -5.0 && range->least < 2.0 && range->most > 3.0 && range->most < 90.0;
    const std::string heights =
        range ? core::said("raster.heights", {{"least", range->least}, {"most", range->most}})
              : core::said("raster.no_heights");
    const ColumnName name = taken_apart(std::filesystem::path(source.file).stem().string());
    for (const std::string_view role : {"canopy", "surface", "terrain"}) {
        const auto words = std::ranges::find(layer_words(), role, &LayerWords::role);
        if (std::ranges::any_of(words->names, [&](const ListedWord& w) { return match(name, w) > 0; }))
            return {std::string(role), 5.0,
                    role == "canopy" && above_ground
                        ? ""
                        : core::said("role.raster_named", {{"heights", heights}}),
                    ""};
    }
    if (above_ground) return {"canopy", 4.0, core::said("role.canopy_heights", {{"heights", heights}}), ""};
    return {"", 0.0, "", core::said("role.maybe_above_sea")};
}

}  // namespace roostward::io
