#pragma once

#include <string>
#include <string_view>

#include "roostward/core/point.hpp"

namespace roostward::report {

/// "geo:52.29929,-1.89833" (RFC 5870), as places are written for people.
[[nodiscard]] std::string geo_uri(core::GeographicPoint place);

/// A QR code (ISO/IEC 18004, error correction M) of a text as SVG, with its quiet zone; `title` says what it
/// is.
[[nodiscard]] std::string qr_code(const std::string& text, std::string_view title);

}  // namespace roostward::report
