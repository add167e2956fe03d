#include "files/memory_file.hpp"

#include <cpl_vsi.h>
#include <fmt/format.h>

namespace roostward::io {

MemoryFile::MemoryFile() : name_(fmt::format("/vsimem/roostward-{}", fmt::ptr(this))) {}

MemoryFile::~MemoryFile() {
    VSIUnlink(name_.c_str());
}

std::string_view MemoryFile::bytes() const {
    vsi_l_offset size = 0;
    const GByte* const start = VSIGetMemFileBuffer(name_.c_str(), &size, FALSE);
    return {reinterpret_cast<const char*>(start), start == nullptr ? 0 : static_cast<std::size_t>(size)};
}

}  // namespace roostward::io
