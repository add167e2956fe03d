#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "files/gdal_handles.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/io/layer_report.hpp"
#include "roostward/io/site_file.hpp"
#include "roostward/siting/inputs.hpp"

// What the readers of rasters share.
namespace roostward::io {

/// From pixels to coordinates, as GDAL keeps it.
using GeoTransform = std::array<double, 6>;

/// A raster file, its cells not yet read.
struct OpenRaster {
    InputSource source;
    OpenDataset dataset;
    GeoTransform transform;
    geo::Crs crs;

    [[nodiscard]] int columns() const;
    [[nodiscard]] int rows() const;
    [[nodiscard]] bool is_in(const geo::Crs& plane) const;
};

/// Throws Error{inputs} for a raster without bands, place or system.
[[nodiscard]] OpenRaster open_raster(const InputSource& source);

/// The same of a raster that holds heights: more than one band is a doubt (the first is read), and so is a
/// unit of no known length (metres are taken).
[[nodiscard]] OpenRaster open_heights(const InputSource& source, LayerReport& report);

/// How many bands there are beside one that tells how opaque cells are.
[[nodiscard]] int bands_of_values(const OpenRaster& raster);

/// Its file, for the list of inputs.
[[nodiscard]] siting::InputFile file_of(const OpenRaster& raster);

/// A part of a raster, in cells.
struct Window {
    int column = 0;
    int row = 0;
    int columns = 0;
    int rows = 0;
};

/// Heights in metres, row by row. No-data of every kind and not-a-number are not known.
struct Heights {
    std::vector<float> values;
    std::vector<std::uint8_t> known;
};

/// The cells of the first band, with its scale, offset and unit taken in. Throws Error{inputs} for over 2·10⁸
/// of them, and for a file that cannot be read to its end.
[[nodiscard]] Heights heights_in(const OpenRaster& raster, const Window& window, core::Threads threads);

/// So many cells one thread looks through at a time.
inline constexpr std::size_t cells_at_a_time = std::size_t{1} << 18U;

}  // namespace roostward::io
