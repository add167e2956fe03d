#pragma once

namespace roostward::cli {

/// As the build file states it.
extern const char* const version;

}  // namespace roostward::cli
