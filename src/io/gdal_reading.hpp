#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "roostward/geo/crs.hpp"
#include "roostward/io/site_file.hpp"
#include "write_gdal.hpp"

// What the readers that go through GDAL share. GDAL's handles are plain pointers, so its headers stay out of here.
namespace roostward::io {

using OpenDataset = std::unique_ptr<void, DatasetCloser>;

struct FeatureDestroyer {
    void operator()(void* feature) const noexcept;
};
using OwnedFeature = std::unique_ptr<void, FeatureDestroyer>;

/// Throws Error{inputs} that names the file and its layer.
[[noreturn]] void cannot_use(const InputSource& source, const std::string& sentence);

/// Throws Error{inputs} where the file is missing, a folder or empty.
void require_file(const InputSource& source);

/// Collects what GDAL complains about on this thread, and keeps it from the terminal.
class Complaints {
 public:
    Complaints();
    ~Complaints();
    Complaints(const Complaints&) = delete;
    Complaints& operator=(const Complaints&) = delete;
    /// The first one; empty where there was none.
    [[nodiscard]] const std::string& first() const { return first_; }
    void hear(const char* complaint);

 private:
    std::string first_;
};

enum class DatasetKind { vector, raster };

/// Opens with any driver. Throws Error{inputs}, with GDAL's own words where it has some.
[[nodiscard]] OpenDataset open_dataset(const InputSource& source, DatasetKind kind);

/// A GDAL spatial reference as ours; empty where there is none, or where it says that it is unknown.
[[nodiscard]] std::optional<geo::Crs> crs_from(void* reference);

/// The `only` of the site file: an attribute filter in the language of OGR (SQL's WHERE).
class RowFilter {
 public:
    /// `definition` is an OGR feature definition, `only` not empty. Throws Error{inputs} for an expression that cannot be
    /// read, listing the columns.
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
