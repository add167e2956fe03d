#include <algorithm>
#include <array>
#include <string>
#include <string_view>

#include "roostward/io/values.hpp"
#include "roostward/io/writers.hpp"
#include "writing/checked_file.hpp"
#include "writing/write_text.hpp"

namespace roostward::io {

namespace {

/// Length of a blank that spreadsheets may pass over before a formula; 0 where there is none.
std::size_t blank_length(std::string_view text) {
    for (const std::string_view blank : {" ", "\xC2\xA0", "\xE2\x80\x8B", "\xE3\x80\x80", "\xEF\xBB\xBF"})
        if (text.starts_with(blank)) return blank.size();
    return 0;
}

/// Spreadsheets run a cell that begins so (OWASP, "CSV Injection"); the last four are full-width signs.
bool would_run_as_formula(std::string_view text) {
    while (const std::size_t blank = blank_length(text))
        text.remove_prefix(blank);
    if (is_plain_number(text.starts_with('+') ? text.substr(1) : text)) return false;
    constexpr std::array<std::string_view, 8> signs{
        "=", "+", "-", "@", "\xEF\xBC\x9D", "\xEF\xBC\x8B", "\xEF\xBC\x8D", "\xEF\xBC\xA0"};
    return std::ranges::any_of(signs, [text](std::string_view sign) { return text.starts_with(sign); });
}

/// With an apostrophe before whatever a spreadsheet would run, also in one that begins a cell after each
/// semicolon, tab or end of line.
std::string disarmed(std::string_view text) {
    constexpr std::string_view parting = ";\t\r\n";
    std::string out(!text.empty() && parting.substr(1).find(text.front()) != std::string_view::npos ? "'"
                                                                                                    : "");
    while (true) {
        const std::size_t end = std::min(text.find_first_of(parting), text.size());
        if (would_run_as_formula(text.substr(0, end))) out += '\'';
        out.append(text, 0, end + 1);
        if (end == text.size()) return out;
        text.remove_prefix(end + 1);
    }
}

void append_cell(std::string& out, const std::string& cell) {
    std::string made;
    const std::string text = disarmed(valid_utf8(cell, made));
    if (text.find_first_of(",\"\r\n") == std::string::npos) {
        out += text;
        return;
    }
    out += '"';
    for (const char c : text) {
        if (c == '"') out += '"';
        out += c;
    }
    out += '"';
}

void append_row(std::string& out, const std::vector<std::string>& cells) {
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (i > 0) out += ',';
        append_cell(out, cells[i]);
    }
    out += "\r\n";
}

}  // namespace

void write_csv(const std::filesystem::path& file, const geo::Table& table) {
    CheckedFile out(file);
    append_row(out.buffer(), table.header);
    for (const std::vector<std::string>& row : table.rows) {
        append_row(out.buffer(), row);
        out.drain();
    }
    out.finish();
}

}  // namespace roostward::io
