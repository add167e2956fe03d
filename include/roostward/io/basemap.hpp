#pragma once

#include <cstddef>

#include "roostward/core/grid.hpp"
#include "roostward/core/picture.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/io/site_file.hpp"
#include "roostward/siting/inputs.hpp"

// The picture behind the report's map.
namespace roostward::io {

/// Looks at the file without reading its pixels. A picture has one band of grey or of a palette, or three or
/// four bands, the first three of which are red, green and blue; all of bytes; and a band that tells how
/// opaque they are, if it has one. Throws Error{inputs} for any other file, for one without a system or
/// place, and for one that does not touch `site`.
[[nodiscard]] siting::InputFile look_at_basemap(const InputSource& source, const geo::Crs& plane,
                                                const core::Box& site);

struct PictureLimits {
    std::size_t pixels = 2'000'000;
    std::size_t bytes = 700'000;
};

/// The picture over `ground`, in the planning plane, clear where the file has nothing. Its pixels are those
/// of the file, or larger ones that keep to the limits. Throws as `look_at_basemap` does, and for a file
/// that cannot be read to its end.
[[nodiscard]] core::Picture read_basemap(const InputSource& source, const geo::Crs& plane,
                                         const core::Box& ground, PictureLimits limits = {});

}  // namespace roostward::io
