#pragma once

#include <vector>

#include "roostward/io/site_file.hpp"
#include "site/toml_entry.hpp"

namespace roostward::io {

/// Puts each override in its place, as if it stood in the file. Throws Error{usage} for a key that cannot be
/// a path, or that leads through something that has no members.
void apply_overrides(TomlFile& file, const std::vector<Override>& overrides);

}  // namespace roostward::io
