#pragma once

#include "roostward/cli/options.hpp"

namespace roostward::cli {

/// `roostward evenings`. Throws Error.
void run_evenings(const Options& options);

}  // namespace roostward::cli
