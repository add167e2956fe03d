#pragma once

#include <filesystem>

#include "roostward/core/document.hpp"

namespace roostward::io {

/// A JSON file (RFC 8259) whole. Throws Error{inputs} where it cannot be read or is no JSON.
[[nodiscard]] core::Document read_document(const std::filesystem::path& file);

}  // namespace roostward::io
