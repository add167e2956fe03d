#pragma once

#include <memory>
#include <string>

#include "roostward/geo/crs.hpp"

// What everything that goes through GDAL shares. GDAL's handles are plain pointers, so its headers stay out
// of here.
namespace roostward::io {

struct DatasetCloser {
    void operator()(void* dataset) const noexcept;
};
using OpenDataset = std::unique_ptr<void, DatasetCloser>;

struct FeatureDestroyer {
    void operator()(void* feature) const noexcept;
};
using OwnedFeature = std::unique_ptr<void, FeatureDestroyer>;

struct ReferenceCloser {
    void operator()(void* reference) const noexcept;
};
using SpatialReference = std::unique_ptr<void, ReferenceCloser>;

/// With x before y. Longitude and latitude become EPSG:4326, which every format knows.
[[nodiscard]] SpatialReference spatial_reference(const geo::Crs& crs);

/// Once a process: GDAL itself would let two threads register at the same time, and crash.
void register_gdal_drivers();

/// The GDAL driver of this name; drivers are registered on first use.
[[nodiscard]] void* gdal_driver(const char* name);

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
