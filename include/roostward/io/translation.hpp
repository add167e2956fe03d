#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "roostward/core/catalogue.hpp"
#include "roostward/io/site_file.hpp"
#include "roostward/siting/inputs.hpp"

namespace roostward::io {

/// The words of another language.
struct Translation {
    siting::InputFile file;
    core::Catalogue words;
};

/// The translation that a site file names as site.words; nothing where it names none. Throws Error{site_file}
/// where the file is missing, and with the line where one is no `key = "text"`.
[[nodiscard]] std::optional<Translation> read_translation(const std::string& site_file,
                                                          const std::vector<Override>& overrides);

/// `file` is as it was named in a site file of `folder`.
[[nodiscard]] Translation read_translation(const std::string& file, const std::filesystem::path& folder);

}  // namespace roostward::io
