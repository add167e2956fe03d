#include <string_view>

#include "checked_file.hpp"
#include "roostward/io/values.hpp"
#include "roostward/io/writers.hpp"
#include "write_text.hpp"

namespace roostward::io {

namespace {

/// Spreadsheets run a cell that begins so (OWASP, "CSV Injection").
bool would_run_as_formula(std::string_view text) {
    return !text.empty() && std::string_view("=+-@\t\r\n").find(text.front()) != std::string_view::npos &&
           !is_plain_number(text.starts_with('+') ? text.substr(1) : text);
}

void append_cell(std::string& out, const std::string& cell) {
    std::string made;
    std::string text = valid_utf8(cell, made);
    if (would_run_as_formula(text)) text.insert(text.begin(), '\'');
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
