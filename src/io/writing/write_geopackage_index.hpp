#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "roostward/core/grid.hpp"
#include "writing/sqlite.hpp"

namespace roostward::io {

/// The box around a feature, in its layer's own system.
struct IndexedBox {
    std::int64_t id = 0;  ///< feature id, or number of a node
    core::Box box;
};

/// Fills the empty spatial index of a layer (R-tree extension, GeoPackage 1.2 annex F.3; geometry column
/// "geom") at once, by sort-tile-recursive packing (Leutenegger, Lopez & Edgington 1997). Row by row, SQLite
/// takes ten times as long. The layer's name must hold no quotation mark.
void fill_spatial_index(Database& database, const std::string& layer, std::vector<IndexedBox> boxes);

}  // namespace roostward::io
