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
#include "roostward/survey/animal_words.hpp"

// What the fuzz targets share. A target throws away whatever a reader refuses with an Error; any other
// exception, and any broken promise, ends it.
namespace roostward::fuzz {

/// A file in memory, for readers that take a path. A target keeps one of each name, since making and removing
/// a file takes longer than reading it.
class MemoryFile {
 public:
    MemoryFile(const std::string& role, const std::string& name) {
        source_.role = role;
        source_.file = name;
        source_.path = "/dev/shm/roostward-fuzz-" + std::to_string(::getpid()) + "-" + name;
        descriptor_ = ::open(source_.path.c_str(), O_RDWR | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
    }
    ~MemoryFile() {
        ::close(descriptor_);
        ::unlink(source_.path.c_str());
    }
    MemoryFile(const MemoryFile&) = delete;
    MemoryFile& operator=(const MemoryFile&) = delete;

    /// The file with these bytes and no others.
    const io::InputSource& with(std::string_view bytes) const {
        const auto size = static_cast<::ssize_t>(bytes.size());
        if (::pwrite(descriptor_, bytes.data(), bytes.size(), 0) != size ||
            ::ftruncate(descriptor_, size) != 0)
            std::abort();
        return source_;
    }

 private:
    io::InputSource source_;
    int descriptor_ = -1;
};

inline std::string_view text_of(const std::uint8_t* data, std::size_t size) {
    return {reinterpret_cast<const char*>(data),
            size};  // NOLINT(cppcoreguidelines-pro-type-reinterpret-cast)
}

/// The animals of a profile, as far as readers ask for them.
inline const survey::AnimalDictionary& animals() {
    static const survey::AnimalDictionary dictionary(
        {{{"bat", "bat", survey::AnimalGroup::Is::animal, true, {"bat"}},
          {"fox", "fox", survey::AnimalGroup::Is::animal, false, {"fox"}}},
         {"bat"},
         {},
         false});
    return dictionary;
}

inline void require(bool promise) {
    if (!promise) std::abort();
}

/// Every row read is used, here, elsewhere or among the `further` ones, or set aside.
template <class Layer>
void require_nothing_lost(const Layer& layer, std::size_t further = 0) {
    const core::RowCount count = layer.facts.report.counts().front();
    require(count.read == count.used + count.set_aside + count.apart);
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
