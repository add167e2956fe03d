#pragma once

#include <filesystem>

#include "roostward/io/site_file.hpp"
#include "toml_entry.hpp"

namespace roostward::io {

/// Reads [inputs] and [[avoid]] into `site`; paths are taken from `folder`. Throws Error{site_file}.
void read_input_sources(const TomlEntry& root, const std::filesystem::path& folder, SiteFile& site);

}  // namespace roostward::io
