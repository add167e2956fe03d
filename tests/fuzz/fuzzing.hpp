#pragma once

#include <fcntl.h>
#include <unistd.h>

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "roostward/core/error.hpp"
#include "roostward/io/site_file.hpp"

// What the fuzz targets share. A target throws away whatever a reader refuses with an Error; any other
// exception, and any broken promise, ends it.
namespace roostward::fuzz {

/// A file in memory with these bytes, for readers that take a path. One of each name at a time.
class MemoryFile {
 public:
    MemoryFile(std::string_view bytes, const std::string& name)
        : name_(name), path_("/dev/shm/roostward-fuzz-" + std::to_string(::getpid()) + "-" + name) {
        const int descriptor = ::open(path_.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
        if (descriptor < 0 ||
            ::write(descriptor, bytes.data(), bytes.size()) != static_cast<::ssize_t>(bytes.size()))
            std::abort();
        ::close(descriptor);
    }
    ~MemoryFile() { ::unlink(path_.c_str()); }
    MemoryFile(const MemoryFile&) = delete;
    MemoryFile& operator=(const MemoryFile&) = delete;

    [[nodiscard]] const std::string& path() const { return path_; }
    [[nodiscard]] io::InputSource source(const std::string& role) const {
        io::InputSource source;
        source.role = role;
        source.file = name_;
        source.path = path_;
        return source;
    }

 private:
    std::string name_, path_;
};

inline std::string_view text_of(const std::uint8_t* data, std::size_t size) {
    return {reinterpret_cast<const char*>(data),
            size};  // NOLINT(cppcoreguidelines-pro-type-reinterpret-cast)
}

inline void require(bool promise) {
    if (!promise) std::abort();
}

/// Every row read is used, here, elsewhere or among the `further` ones, or set aside.
template <class Layer>
void require_nothing_lost(const Layer& layer, std::size_t further = 0) {
    const auto count = layer.facts.report.counts();
    require(count.read == count.used + count.set_aside);
    require(count.used == layer.rows.size() + layer.elsewhere.size() + further);
}

/// Runs `read`, which may refuse what it is given.
template <class Read>
void allow_refusal(const Read& read) {
    try {
        read();
    } catch (const core::Error& error) {
        require(*error.what() != '\0' && error.fault() != core::Fault::internal);
    }
}

}  // namespace roostward::fuzz
