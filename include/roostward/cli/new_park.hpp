#pragma once

#include <string>

#include "roostward/cli/options.hpp"

namespace roostward::cli {

/// Writes what a park begins with into the folder, which must be new or empty, all or nothing. Returns what
/// to tell. Throws Error.
[[nodiscard]] std::string start_new_park(const Options& options);

}  // namespace roostward::cli
