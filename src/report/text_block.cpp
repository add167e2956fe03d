#include "roostward/report/text_block.hpp"

#include <algorithm>

namespace roostward::report {

namespace {
bool starts_code_point(char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
}
}  // namespace

std::size_t columns_of(std::string_view text) {
    return static_cast<std::size_t>(std::ranges::count_if(text, starts_code_point));
}

std::string fitted(std::string_view text, std::size_t columns, bool to_right) {
    const std::size_t width = columns_of(text);
    if (width <= columns) {
        const std::string fill(columns - width, ' ');
        return to_right ? fill + std::string(text) : std::string(text) + fill;
    }
    std::size_t end = 0;
    for (std::size_t kept = 0; end < text.size(); ++end)
        if (starts_code_point(text[end]) && kept++ == columns - 1) break;
    return std::string(text.substr(0, end)) + "…";
}

std::string in_a_row(std::initializer_list<std::string> sentences) {
    std::string text;
    for (const std::string& sentence : sentences)
        text += (text.empty() || sentence.empty() ? "" : " ") + sentence;
    return text;
}

std::string wrapped(std::string_view text, std::size_t indent, std::string_view lead) {
    std::string out(lead);
    std::size_t column = columns_of(lead);
    bool starts_line = true;
    while (!text.empty()) {
        const std::size_t space = std::min(text.find(' '), text.size());
        const std::string_view word = text.substr(0, space);
        text.remove_prefix(std::min(space + 1, text.size()));
        if (!starts_line && column + 1 + columns_of(word) > terminal_columns) {
            out += '\n';
            out.append(indent, ' ');
            column = indent;
        } else if (!starts_line) {
            out += ' ';
            ++column;
        }
        starts_line = false;
        out += word;
        column += columns_of(word);
    }
    return out + '\n';
}

}  // namespace roostward::report
