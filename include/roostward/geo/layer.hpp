#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <variant>
#include <vector>

#include "roostward/core/document.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/geo/shape.hpp"

namespace roostward::geo {

enum class GeometryKind { point, line, polygons };
enum class ColumnKind { text, truth, whole, number, nested };

struct Column {
    std::string name;
    ColumnKind kind = ColumnKind::text;
};

/// One point, one line or a set of polygons.
using Geometry = std::variant<core::PlanePoint, Line, std::vector<Polygon>>;

struct Feature {
    Geometry geometry;
    std::vector<core::Document> values;  ///< one a column, null where missing
};

/// A layer to be written. Features are composed one at a time, so that a city's trees need no second copy;
/// `feature` refers to what it was made from, which must outlive the layer, and may be called from several
/// threads at a time.
struct Layer {
    std::string name;
    GeometryKind geometry = GeometryKind::point;
    Crs crs;
    std::vector<Column> columns;
    std::size_t size = 0;
    std::function<Feature(std::size_t)> feature;
};

/// A table to be written as CSV, cell by cell as text.
struct Table {
    std::vector<std::string> header;
    std::vector<std::vector<std::string>> rows;
};

/// A table that is a sheet of a spreadsheet.
struct NamedTable {
    std::string name;
    Table table;
};

}  // namespace roostward::geo
