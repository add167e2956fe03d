#include "roostward/core/folding.hpp"

#include <utf8proc.h>

#include <algorithm>
#include <cstdlib>
#include <memory>

namespace roostward::core {

namespace {

bool is_ascii(char c) {
    return static_cast<unsigned char>(c) < 0x80;
}

/// Empty where the text is no UTF-8.
std::string mapped(std::string_view text, int options) {
    utf8proc_uint8_t* raw = nullptr;
    const utf8proc_ssize_t length = utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                                 static_cast<utf8proc_ssize_t>(text.size()), &raw,
                                                 static_cast<utf8proc_option_t>(options));
    const std::unique_ptr<utf8proc_uint8_t, decltype(&std::free)> owned(raw, &std::free);
    return length < 0 ? std::string()
                      : std::string(reinterpret_cast<const char*>(raw), static_cast<std::size_t>(length));
}

struct Letter {
    std::string_view bytes;
    utf8proc_category_t category = UTF8PROC_CATEGORY_CN;

    [[nodiscard]] bool blank() const {
        return category >= UTF8PROC_CATEGORY_ZS && category <= UTF8PROC_CATEGORY_ZP;
    }
    /// Letters, marks and figures.
    [[nodiscard]] bool of_a_word() const {
        return category >= UTF8PROC_CATEGORY_LU && category <= UTF8PROC_CATEGORY_NO;
    }
};

/// Takes the first character off; a byte that begins none is one of a word.
Letter taken_off(std::string_view& text) {
    utf8proc_int32_t code = 0;
    const utf8proc_ssize_t length = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                                     static_cast<utf8proc_ssize_t>(text.size()), &code);
    const std::string_view bytes = text.substr(0, length > 0 ? static_cast<std::size_t>(length) : 1);
    text.remove_prefix(bytes.size());
    return {bytes, length > 0 ? utf8proc_category(code) : UTF8PROC_CATEGORY_LO};
}

/// Every blank of Unicode as a space.
std::string with_plain_blanks(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    while (!text.empty()) {
        const Letter letter = taken_off(text);
        out += letter.blank() ? std::string_view(" ") : letter.bytes;
    }
    return out;
}

/// Of ASCII; other bytes stay as they are.
std::string with_small_ascii(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    for (const char c : text) {
        const bool blank = c == ' ' || (c >= '\t' && c <= '\r');
        if (blank && (out.empty() || out.back() == ' ')) continue;
        out += blank ? ' ' : c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    if (out.ends_with(' ')) out.pop_back();
    return out;
}

}  // namespace

std::string folded(std::string_view text) {
    if (std::ranges::all_of(text, is_ascii)) return with_small_ascii(text);
    const std::string small =
        mapped(text, UTF8PROC_CASEFOLD | UTF8PROC_COMPOSE | UTF8PROC_STABLE | UTF8PROC_IGNORE);
    return with_small_ascii(small.empty() ? std::string(text) : with_plain_blanks(small));
}

std::string without_marks(std::string_view text) {
    if (std::ranges::all_of(text, is_ascii)) return std::string(text);
    const std::string bare = mapped(text, UTF8PROC_COMPOSE | UTF8PROC_STABLE | UTF8PROC_STRIPMARK);
    return bare.empty() ? std::string(text) : bare;
}

std::vector<std::string> plain_words(std::string_view text) {
    constexpr std::size_t may_be_plural = 4;
    const std::string bare = without_marks(folded(text));
    std::vector<std::string> words;
    bool inside = false;
    for (std::string_view rest = bare; !rest.empty();) {
        const Letter letter = taken_off(rest);
        if (letter.of_a_word() && !inside) words.emplace_back();
        if (letter.of_a_word()) words.back() += letter.bytes;
        inside = letter.of_a_word();
    }
    for (std::string& word : words)
        if (word.size() >= may_be_plural && word.back() == 's') word.pop_back();
    return words;
}

}  // namespace roostward::core
