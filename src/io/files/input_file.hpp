#pragma once

#include <cstddef>
#include <string>

#include "roostward/io/site_file.hpp"

namespace roostward::io {

/// Throws Error{inputs} that names the file and its layer.
[[noreturn]] void cannot_use(const InputSource& source, const std::string& sentence);

/// Throws Error{inputs} where the file is missing, a folder or empty.
void require_file(const InputSource& source);

/// Parsers that look at many bytes at once want this much memory behind the last.
inline constexpr std::size_t room_behind = 64;

/// All bytes of the file, with `room_behind` in the string's capacity. Throws Error{inputs}.
[[nodiscard]] std::string bytes_of(const InputSource& source);

/// "csv" of "Trees.CSV".
[[nodiscard]] std::string extension_of(const InputSource& source);

}  // namespace roostward::io
