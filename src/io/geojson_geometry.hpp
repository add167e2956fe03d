#pragma once

#include <simdjson.h>

#include "roostward/geo/shape.hpp"

namespace roostward::io {

/// Empties the shape, which keeps its memory.
void clear(geo::Shape& shape);

/// Adds a GeoJSON geometry (RFC 7946, section 3.1) to the shape. Heights are left out. A geometry of another type, or with
/// coordinates that are no numbers, adds nothing. Throws simdjson_error where the text is no JSON.
void take_geojson_shape(simdjson::ondemand::object geometry, geo::Shape& shape);

}  // namespace roostward::io
