#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <string_view>

namespace roostward::io {

/// A ZIP file in memory. It may unpack to a hundred times its size, at least 64 MiB and at most 2 GiB, all
/// that is read taken together: honest spreadsheets stay far below.
class ZipPackage {
 public:
    /// `bytes` must live as long as the package. Throws Error{inputs} where they are no ZIP file.
    explicit ZipPackage(std::string_view bytes);
    ~ZipPackage();
    ZipPackage(const ZipPackage&) = delete;
    ZipPackage& operator=(const ZipPackage&) = delete;

    /// Hands out the named part piece by piece; false where there is no such part. Throws Error{inputs} where
    /// it is damaged, locked or unpacks to too much.
    bool read(const std::string& name, const std::function<void(std::string_view)>& take);

 private:
    struct Archive;
    std::unique_ptr<Archive> archive_;
    std::uint64_t left_;  ///< bytes that may still be unpacked
};

/// Throws Error{inputs}: the file wants a password.
[[noreturn]] void locked();

}  // namespace roostward::io
