#pragma once

#include "roostward/siting/profile.hpp"
#include "site/toml_entry.hpp"

namespace roostward::io {

/// How well an entry of a data file is founded: its `status` and `source`. Throws Error{site_file}, also
/// where something published names no source.
[[nodiscard]] siting::Provenance provenance_of(const TomlEntry& entry);

}  // namespace roostward::io
