#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace roostward::io {

/// A feature's extent in its layer's own system.
struct IndexedBox {
    std::int64_t id = 0;  ///< feature id, or number of a node
    double min_x = 0.0, max_x = 0.0, min_y = 0.0, max_y = 0.0;
};

/// The spatial index of a GeoPackage layer (its R-tree extension, GeoPackage 1.2 annex F.3), filled at once
/// by sort-tile-recursive packing (Leutenegger, Lopez & Edgington 1997). Row by row, SQLite takes ten times
/// as long. Names must hold no quotation mark.
class SpatialIndex {
 public:
    /// Makes the empty index, and stops it from being filled row by row. `dataset` is GDAL's; the layer is
    /// empty and has the geometry column "geom".
    SpatialIndex(void* dataset, const std::string& layer);
    /// Fills it in and lets later rows in again.
    void fill(std::vector<IndexedBox> boxes);

 private:
    void* dataset_;
    std::string table_;           ///< "rtree_LAYER_geom"
    std::string insert_trigger_;  ///< as SQL
};

}  // namespace roostward::io
