#include "files/input_file.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <optional>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"

namespace roostward::io {

std::vector<InputSource> each_file(const InputSource& source) {
    InputSource first = source;
    first.further.clear();
    std::vector<InputSource> files{first};
    for (const NamedFile& more : source.further) {
        files.push_back(first);
        files.back().file = more.file;
        files.back().path = more.path;
    }
    return files;
}

void cannot_use(const InputSource& source, const std::string& sentence) {
    throw core::Error(core::Fault::inputs, {source.file, source.role, std::nullopt, {}}, sentence);
}

void require_file(const InputSource& source) {
    namespace fs = std::filesystem;
    std::error_code problem;
    const fs::file_status status = fs::status(source.path, problem);
    if (!fs::exists(status)) cannot_use(source, core::said("error.no_such_file"));
    if (fs::is_directory(status)) {
        const bool geodatabase = fs::path(source.path).extension() == ".gdb";
        if (!geodatabase) cannot_use(source, core::said("error.a_folder"));
        return;
    }
    if (fs::file_size(source.path, problem) == 0) {
        cannot_use(source, core::said("error.empty_file"));
    }
}

std::string bytes_of(const InputSource& source) {
    require_file(source);
    const std::size_t size = std::filesystem::file_size(source.path);
    std::string bytes;
    bytes.reserve(size + room_behind);
    bytes.resize(size);
    std::ifstream file(source.path, std::ios::binary);
    if (!file.read(bytes.data(), static_cast<std::streamsize>(bytes.size()))) {
        cannot_use(source, core::said("error.unreadable_file"));
    }
    return bytes;
}

std::string extension_of(const InputSource& source) {
    std::string extension = std::filesystem::path(source.path).extension();
    if (!extension.empty()) extension.erase(0, 1);
    std::transform(extension.begin(), extension.end(), extension.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    return extension;
}

}  // namespace roostward::io
