#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "files/gdal_handles.hpp"
#include "files/input_file.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/io/site_file.hpp"

// What the readers that go through GDAL share.
namespace roostward::io {

enum class DatasetKind { vector, raster };

/// Opens with any driver. Throws Error{inputs}, with GDAL's own words where it has some.
[[nodiscard]] OpenDataset open_dataset(const InputSource& source, DatasetKind kind);

/// A GDAL spatial reference as ours; empty where there is none, or where it says that it is unknown.
[[nodiscard]] std::optional<geo::Crs> crs_from(void* reference);

/// The `only` of the site file: an attribute filter in the language of OGR (SQL's WHERE).
class RowFilter {
 public:
    /// `definition` is an OGR feature definition, `only` not empty. Throws Error{inputs} for an expression
    /// that cannot be read, listing the columns.
    RowFilter(void* definition, const InputSource& source);
    ~RowFilter();
    RowFilter(RowFilter&&) noexcept;
    RowFilter& operator=(RowFilter&&) noexcept;
    [[nodiscard]] bool accepts(void* feature) const;

 private:
    struct Query;
    std::unique_ptr<Query> query_;
};

}  // namespace roostward::io
