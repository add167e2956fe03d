#pragma once

namespace roostward::cli {

/// The whole program. Never throws; returns the exit code: 0 done, 1 internal fault, 2 wrong usage or site
/// file, 3 inputs unusable, 4 done but no tree can be chosen, 130 interrupted.
[[nodiscard]] int run(int argc, char** argv);

}  // namespace roostward::cli
