#pragma once

#include <filesystem>

#include "files/gdal_handles.hpp"

namespace roostward::io {

/// Whether GDAL wrote a file. It returns success on a full disk (seen with 3.6); its complaints tell.
class WriteWatch {
 public:
    explicit WriteWatch(std::filesystem::path file);
    /// Throws Error{outputs} where GDAL has complained, or `good` is false.
    void check(bool good = true) const;

 private:
    std::filesystem::path file_;
    Complaints complaints_;
};

}  // namespace roostward::io
