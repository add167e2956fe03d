#include <gdal.h>
#include <ogr_api.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "files/gdal_reading.hpp"
#include "files/layer_sample.hpp"
#include "files/row_sources.hpp"

namespace roostward::io {

std::vector<std::string> layers_in(const InputSource& source) {
    constexpr std::array<std::string_view, 8> single = {"csv", "txt",     "tsv",  "tab",
                                                        "psv", "geojson", "json", "shp"};
    require_file(source);
    if (std::ranges::find(single, extension_of(source)) != single.end()) return {""};
    if (is_spreadsheet(source)) {
        std::vector<std::string> sheets = sheets_with_rows(source);
        return sheets.size() < 2 ? std::vector<std::string>{""} : sheets;
    }
    const OpenDataset dataset = open_dataset(source, DatasetKind::vector);
    const bool gpx = std::string_view(GDALGetDriverShortName(GDALGetDatasetDriver(dataset.get()))) == "GPX";
    std::vector<std::string> names;
    for (int i = 0; i < GDALDatasetGetLayerCount(dataset.get()); ++i) {
        OGRLayerH layer = GDALDatasetGetLayer(dataset.get(), i);
        const std::string name = OGR_L_GetName(layer);
        if (OGR_L_GetFeatureCount(layer, 1) > 0 && !(gpx && name.ends_with("_points"))) names.push_back(name);
    }
    if (names.size() == 1 && GDALDatasetGetLayerCount(dataset.get()) == 1) return {""};
    return names;
}

}  // namespace roostward::io
