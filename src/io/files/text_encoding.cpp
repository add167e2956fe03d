#include "roostward/io/text_encoding.hpp"

#include <iconv.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdint>
#include <cstring>

namespace roostward::io {

namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD";

struct Converter {
    explicit Converter(const char* from) : handle(iconv_open("UTF-8", from)) {}
    ~Converter() { iconv_close(handle); }
    Converter(const Converter&) = delete;
    Converter& operator=(const Converter&) = delete;
    iconv_t handle;
};

std::string converted(std::string& bytes, std::size_t start, const char* from, std::size_t unit) {
    const Converter converter(from);
    std::string out;
    out.reserve(bytes.size() - start);
    std::array<char, 4096> chunk{};
    char* in = bytes.data() + start;
    std::size_t left = bytes.size() - start;
    while (left > 0) {
        char* to = chunk.data();
        std::size_t room = chunk.size();
        const bool failed = iconv(converter.handle, &in, &left, &to, &room) == static_cast<std::size_t>(-1);
        const int why = failed ? errno : 0;
        out.append(chunk.data(), chunk.size() - room);
        if (why == EILSEQ || why == EINVAL) {
            const std::size_t skipped = std::min(unit, left);
            out.append(replacement);
            in += skipped;
            left -= skipped;
        }
    }
    return out;
}

/// Length of the UTF-8 sequence at the start of `bytes`; 0 where it is not valid (Unicode 15, table 3-7).
std::size_t sequence_length(std::string_view bytes) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(bytes[i]); };
    const auto follows = [&](std::size_t i, unsigned low, unsigned high) {
        return i < bytes.size() && byte(i) >= low && byte(i) <= high;
    };
    const unsigned lead = byte(0);
    if (lead < 0x80) return 1;
    if (lead >= 0xC2 && lead <= 0xDF) return follows(1, 0x80, 0xBF) ? 2 : 0;
    if (lead >= 0xE0 && lead <= 0xEF) {
        const unsigned low = lead == 0xE0 ? 0xA0 : 0x80;
        const unsigned high = lead == 0xED ? 0x9F : 0xBF;
        return follows(1, low, high) && follows(2, 0x80, 0xBF) ? 3 : 0;
    }
    if (lead >= 0xF0 && lead <= 0xF4) {
        const unsigned low = lead == 0xF0 ? 0x90 : 0x80;
        const unsigned high = lead == 0xF4 ? 0x8F : 0xBF;
        return follows(1, low, high) && follows(2, 0x80, 0xBF) && follows(3, 0x80, 0xBF) ? 4 : 0;
    }
    return 0;
}

bool starts_with(std::string_view bytes, std::string_view mark) {
    return bytes.substr(0, mark.size()) == mark;
}

/// UTF-16 without a mark: nearly every second byte of the beginning is NUL.
bool mostly_nul(std::string_view bytes, std::size_t first) {
    const std::string_view head = bytes.substr(0, 512);
    std::size_t nul = 0;
    for (std::size_t i = first; i < head.size(); i += 2)
        nul += head[i] == '\0';
    return head.size() >= 4 && nul * 10 >= head.size() / 2 * 7;
}

}  // namespace

bool is_utf8(std::string_view bytes) {
    std::size_t i = 0;
    while (i < bytes.size()) {
        std::uint64_t word = 0;
        if (i + sizeof word <= bytes.size()) {
            std::memcpy(&word, bytes.data() + i, sizeof word);
            if ((word & 0x8080808080808080ULL) == 0) {
                i += sizeof word;
                continue;
            }
        }
        const std::size_t length = sequence_length(bytes.substr(i));
        if (length == 0) return false;
        i += length;
    }
    return true;
}

DecodedText decoded(std::string bytes) {
    if (starts_with(bytes, "\xFF\xFE")) return {converted(bytes, 2, "UTF-16LE", 2), Encoding::utf16_little};
    if (starts_with(bytes, "\xFE\xFF")) return {converted(bytes, 2, "UTF-16BE", 2), Encoding::utf16_big};
    if (mostly_nul(bytes, 1)) return {converted(bytes, 0, "UTF-16LE", 2), Encoding::utf16_little};
    if (mostly_nul(bytes, 0)) return {converted(bytes, 0, "UTF-16BE", 2), Encoding::utf16_big};
    if (starts_with(bytes, "\xEF\xBB\xBF")) bytes.erase(0, 3);
    if (is_utf8(bytes)) return {std::move(bytes), Encoding::utf8};
    return {converted(bytes, 0, "CP1252", 1), Encoding::cp1252};
}

}  // namespace roostward::io
