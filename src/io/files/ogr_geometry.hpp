#pragma once

#include "roostward/geo/shape.hpp"

namespace roostward::io {

/// Puts what an OGR geometry holds into `shape`, which keeps its memory from row to row. Heights are left
/// out, curves become lines. A null geometry empties the shape.
void take_shape(void* geometry, geo::Shape& shape);

}  // namespace roostward::io
