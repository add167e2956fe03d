#pragma once

#include <filesystem>
#include <string>

namespace roostward::io {

/// Throws Error{outputs} that names the file and why it cannot be written.
[[noreturn]] void cannot_write(const std::filesystem::path& file, const std::string& why);

/// The text with every byte that is not UTF-8 replaced by U+FFFD: `text` itself, or `made` where it had to be
/// made anew.
[[nodiscard]] const std::string& valid_utf8(const std::string& text, std::string& made);

}  // namespace roostward::io
