#pragma once

#include <filesystem>
#include <span>
#include <string>
#include <string_view>

#include "roostward/core/document.hpp"
#include "roostward/core/finding.hpp"
#include "roostward/core/grid.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/core/time.hpp"
#include "roostward/geo/layer.hpp"

// Each writer makes sure that all it wrote is there; it throws Error{outputs} where it cannot write.
namespace roostward::io {

/// RFC 7946: WGS 84, 7 decimals, outer rings counter-clockwise, geometry cut at ±180°; numbers of 9
/// significant digits. Features are composed on several threads and written in their order.
void write_geojson(const std::filesystem::path& file, const geo::Layer& layer, core::Threads threads);

/// One GeoPackage with every layer, each in its own system. `stamp` is written where the format wants the
/// time of the last change.
void write_geopackage(const std::filesystem::path& file, std::span<const geo::Layer> layers,
                      core::Instant stamp);

/// Whether a raster holds smaller pictures of itself, so that a map can zoom out without reading it all.
enum class Overviews { none, down_to_one_block };

/// Cloud Optimized GeoTIFF, float32, not-a-number where not known.
void write_raster(const std::filesystem::path& file, const core::Raster& raster, const geo::Crs& crs,
                  const std::string& description, Overviews overviews = Overviews::down_to_one_block);

/// RFC 4180, UTF-8, lines end in CRLF. A text cell that a spreadsheet would run as a formula gets a leading
/// apostrophe, also where a program begins a cell after a semicolon, a tab or an end of line in it.
void write_csv(const std::filesystem::path& file, const geo::Table& table);

/// The same as a file by itself: it appears whole or not at all. An earlier file of other content moves to
/// kept/NAME.N beside it: returns where to, empty where nothing moved.
std::filesystem::path publish_csv(const std::filesystem::path& file, const geo::Table& table);

/// Throws Error{usage} where there is anything of that name.
void require_free(const std::filesystem::path& file);

/// XLSX. Every cell and column is text, so that no program takes a clock, a date or a tag for a number when
/// people fill it in; the columns of the header are all there is. Cells are not blank at their ends.
void write_xlsx(const std::filesystem::path& file, std::span<const geo::NamedTable> sheets);

void write_json(const std::filesystem::path& file, const core::Document& document);

/// A text as it stands.
void write_text(const std::filesystem::path& file, const std::string& text);

/// 64 hexadecimal digits. Throws Error{inputs} where the file cannot be read.
[[nodiscard]] std::string sha256_of(const std::filesystem::path& file);
[[nodiscard]] std::string sha256_of_text(std::string_view text);

}  // namespace roostward::io
