#include "xml_text.hpp"

#include "roostward/core/utf8.hpp"

namespace roostward::report {

namespace {

/// XML 1.0, production 2: no control characters but tab and ends of lines, no U+FFFE, no U+FFFF.
bool is_allowed(std::string_view character) {
    if (character.size() == 1) {
        const char c = character.front();
        return static_cast<unsigned char>(c) >= 0x20 || c == '\t' || c == '\n' || c == '\r';
    }
    return character != "\xEF\xBF\xBE" && character != "\xEF\xBF\xBF";
}

std::string_view escaped(std::string_view character) {
    switch (character.front()) {
        case '&':
            return "&amp;";
        case '<':
            return "&lt;";
        case '>':
            return "&gt;";
        case '"':
            return "&quot;";
        case '\r':
            return "&#13;";
        default:
            return character;
    }
}

}  // namespace

std::string xml_text(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = core::utf8_length(text, at);
        const std::string_view character = text.substr(at, length);
        out += length > 0 && is_allowed(character) ? escaped(character) : "\xEF\xBF\xBD";
        at += length > 0 ? length : 1;
    }
    return out;
}

}  // namespace roostward::report
