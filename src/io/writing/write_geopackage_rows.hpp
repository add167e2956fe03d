#pragma once

#include "roostward/geo/layer.hpp"
#include "writing/sqlite.hpp"

namespace roostward::io {

/// Writes a layer's features into its table, which is there and empty, and everything that depends on them:
/// the layer's extent, the count of its features and its spatial index. The table has the columns "fid",
/// "geom" and those of the layer, in that order.
void write_rows(Database& database, const geo::Layer& layer);

}  // namespace roostward::io
