#pragma once

#include <string>
#include <string_view>

namespace roostward::report {

/// Text as it may stand in XML 1.0 and in its attributes: bytes that are no UTF-8 and characters that XML
/// does not allow become U+FFFD.
[[nodiscard]] std::string xml_text(std::string_view text);

}  // namespace roostward::report
