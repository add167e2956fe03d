#pragma once

#include <string>
#include <string_view>

namespace roostward::io {

enum class Encoding { utf8, utf16_little, utf16_big, cp1252 };

struct DecodedText {
    std::string text;  ///< UTF-8 without a byte-order mark
    Encoding encoding = Encoding::utf8;
};

[[nodiscard]] bool is_utf8(std::string_view bytes);

/// Any of the encodings as UTF-8. Told by the byte-order mark; without one UTF-16 by its NUL bytes (every
/// second byte of the Latin letters), then UTF-8 where the bytes are valid, else Windows code page 1252.
/// Bytes that mean nothing in their encoding become U+FFFD.
[[nodiscard]] DecodedText decoded(std::string bytes);

}  // namespace roostward::io
