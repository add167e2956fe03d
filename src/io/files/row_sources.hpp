#pragma once

#include <memory>
#include <string>
#include <vector>

#include "roostward/io/row_source.hpp"
#include "roostward/io/text_encoding.hpp"

// The kinds of row source behind open_rows.
namespace roostward::io {

[[nodiscard]] std::unique_ptr<RowSource> open_text_rows(const InputSource& source);
/// The cells of an XLSX or ODS file, by the rules of sheet_table.hpp; `layer` names a sheet.
[[nodiscard]] std::unique_ptr<RowSource> open_sheet_rows(const InputSource& source);
/// Names of the sheets with rows, in the order of the file: what `layer` may be.
[[nodiscard]] std::vector<std::string> sheets_with_rows(const InputSource& source);
/// Whether the file's name says that open_sheet_rows reads it, or tells how to save it.
[[nodiscard]] bool is_spreadsheet(const InputSource& source);
/// A GeoJSON FeatureCollection, read many times faster than by GDAL. Null for any other JSON, and where
/// `only` or a layer is asked for: GDAL reads those.
[[nodiscard]] std::unique_ptr<RowSource> open_geojson_rows(const InputSource& source);
/// Everything that GDAL reads.
[[nodiscard]] std::unique_ptr<RowSource> open_ogr_rows(const InputSource& source);

/// What should be said about a file in this encoding.
[[nodiscard]] std::vector<RowTrouble> encoding_notes(Encoding encoding);

}  // namespace roostward::io
