#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace roostward::io {

/// "2026-06-09" or "2026-06-09T21:46:45.999999999" to the thousandth of a second, as iso_text writes it. The
/// day that serial 0 falls on tells a time of day alone, if it has one. Empty for anything else.
[[nodiscard]] std::optional<std::string> iso_moment(std::string_view text);

/// "PT21H46M46.5S" as "21:46:46.500". Empty for anything else.
[[nodiscard]] std::optional<std::string> iso_duration(std::string_view text);

}  // namespace roostward::io
