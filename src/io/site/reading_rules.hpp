#pragma once

#include "roostward/core/document.hpp"
#include "site/toml_entry.hpp"

namespace roostward::io {

/// What the site file says of how its inputs are to be read: layer, columns, units, filters, distances to
/// avoid; without the names of files, which tell nothing of what is in them. The files of one layer stand in
/// an order of their own, whichever was named first.
[[nodiscard]] core::Document reading_rules(const TomlFile& file);

}  // namespace roostward::io
