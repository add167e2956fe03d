#pragma once

#include <functional>
#include <map>
#include <string>
#include <string_view>

namespace roostward::report {

/// What a frame asks for by name.
using Parts = std::map<std::string, std::function<std::string()>, std::less<>>;

/// The frame with each {{key}} replaced by that word and each {{@name}} by that part.
[[nodiscard]] std::string filled(std::string_view frame, const Parts& parts);

/// As a Content-Security-Policy names a script or style that may run, by its SHA-256 in hex.
[[nodiscard]] std::string content_source(std::string_view sha256);

}  // namespace roostward::report
