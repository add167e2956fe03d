#pragma once

#include <string>
#include <string_view>

#include "roostward/core/point.hpp"

namespace roostward::report {

/// "geo:52.299290,-1.898330" (RFC 5870), to a tenth of a metre.
[[nodiscard]] std::string geo_uri(core::GeographicPoint place);

/// A QR code (ISO/IEC 18004, error correction M) of a text as SVG, with its quiet zone; `title` says what it
/// is.
[[nodiscard]] std::string qr_code(const std::string& text, std::string_view title);

}  // namespace roostward::report
