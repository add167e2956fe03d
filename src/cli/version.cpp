#include "roostward/cli/version.hpp"

namespace roostward::cli {

const char* const version = ROOSTWARD_VERSION;

}  // namespace roostward::cli
