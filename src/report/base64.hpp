#pragma once

#include <cstdint>
#include <span>
#include <string>

namespace roostward::report {

/// RFC 4648, with padding.
[[nodiscard]] std::string base64(std::span<const std::uint8_t> bytes);

}  // namespace roostward::report
