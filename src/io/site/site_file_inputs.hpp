#pragma once

#include <filesystem>
#include <string_view>
#include <vector>

#include "roostward/io/site_file.hpp"
#include "site/toml_entry.hpp"

namespace roostward::io {

/// The layers that [inputs] can name.
[[nodiscard]] std::vector<std::string_view> input_roles();

/// Whether only evenings to come need the layer.
[[nodiscard]] bool is_of_evenings(std::string_view role);

/// Reads [inputs] and [[avoid]] into `site`; paths are taken from `folder`. Throws Error{site_file}.
void read_input_sources(const TomlEntry& root, const std::filesystem::path& folder, SiteFile& site);

}  // namespace roostward::io
