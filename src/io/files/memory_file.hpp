#pragma once

#include <string>
#include <string_view>

namespace roostward::io {

/// A file that GDAL writes to memory, gone with this.
class MemoryFile {
 public:
    MemoryFile();
    ~MemoryFile();
    MemoryFile(const MemoryFile&) = delete;
    MemoryFile& operator=(const MemoryFile&) = delete;
    [[nodiscard]] const char* name() const { return name_.c_str(); }
    /// Empty before it is written.
    [[nodiscard]] std::string_view bytes() const;

 private:
    std::string name_;
};

}  // namespace roostward::io
