#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include "roostward/geo/crs.hpp"

// What the writers that go through GDAL share. GDAL's handles are plain pointers, so its headers stay out of
// here.
namespace roostward::io {

struct DatasetCloser {
    void operator()(void* dataset) const noexcept;
};
using WrittenDataset = std::unique_ptr<void, DatasetCloser>;

struct ReferenceCloser {
    void operator()(void* reference) const noexcept;
};
using SpatialReference = std::unique_ptr<void, ReferenceCloser>;

/// The GDAL driver of this name; drivers are registered on first use.
[[nodiscard]] void* gdal_driver(const char* name);

/// With x before y. Longitude and latitude become EPSG:4326, which every format knows.
[[nodiscard]] SpatialReference spatial_reference(const geo::Crs& crs);

/// Listens to what GDAL complains about on this thread, and keeps it from the terminal. GDAL returns success
/// on a full disk (seen with 3.6); its complaints tell.
class WriteWatch {
 public:
    explicit WriteWatch(std::filesystem::path file);
    ~WriteWatch();
    WriteWatch(const WriteWatch&) = delete;
    WriteWatch& operator=(const WriteWatch&) = delete;

    /// Throws Error{outputs} where GDAL has complained, or `good` is false.
    void check(bool good = true) const;
    void hear(const char* complaint);

 private:
    std::filesystem::path file_;
    std::string complaint_;
};

/// A GDAL option for this thread, until the end of the scope.
class ThreadOption {
 public:
    ThreadOption(std::string key, const std::string& value);
    ~ThreadOption();
    ThreadOption(const ThreadOption&) = delete;
    ThreadOption& operator=(const ThreadOption&) = delete;

 private:
    std::string key_;
    std::string earlier_;
    bool had_earlier_ = false;
};

}  // namespace roostward::io
