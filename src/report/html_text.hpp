#pragma once

#include <string>
#include <string_view>

namespace roostward::report {

/// Text as it may stand in HTML and in its attributes.
[[nodiscard]] std::string html_text(std::string_view text);

}  // namespace roostward::report
