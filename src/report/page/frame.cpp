#include "frame.hpp"

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <vector>

#include "base64.hpp"
#include "html_text.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::report {

std::string content_source(std::string_view sha256) {
    std::vector<std::uint8_t> bytes(sha256.size() / 2);
    for (std::size_t i = 0; i < bytes.size(); ++i)
        std::from_chars(sha256.data() + 2 * i, sha256.data() + 2 * i + 2, bytes[i], 16);
    return "'sha256-" + base64(bytes) + "'";
}

std::string filled(std::string_view frame, const Parts& parts) {
    std::string out;
    while (true) {
        const std::size_t open = std::min(frame.find("{{"), frame.size());
        out += frame.substr(0, open);
        if (open == frame.size()) return out;
        const std::size_t close = frame.find("}}", open);
        const std::string_view key = frame.substr(open + 2, close - open - 2);
        out += key.front() == '@' ? parts.find(key.substr(1))->second() : html_text(core::said(key));
        frame.remove_prefix(close + 2);
    }
}

}  // namespace roostward::report
