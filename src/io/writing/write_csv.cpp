#include <fstream>
#include <string>
#include <string_view>
#include <system_error>

#include "roostward/core/error.hpp"
#include "roostward/io/values.hpp"
#include "roostward/io/writers.hpp"
#include "writing/checked_file.hpp"
#include "writing/write_text.hpp"

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

bool begins_with_header(const std::filesystem::path& file, const geo::Table& table) {
    std::string header;
    append_row(header, table.header);
    std::string found(header.size(), '\0');
    std::ifstream in(file, std::ios::binary);
    in.read(found.data(), static_cast<std::streamsize>(found.size()));
    return in.gcount() == static_cast<std::streamsize>(found.size()) && found == header;
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

void publish_csv(const std::filesystem::path& file, const geo::Table& table) {
    if (std::filesystem::exists(file) && !begins_with_header(file, table))
        throw core::Error(core::Fault::usage, {file.string(), {}, {}, {}},
                          "there is another file of this name, which is kept: give a new name");
    const std::filesystem::path part = file.string() + ".part";
    std::error_code problem;
    try {
        write_csv(part, table);
        std::filesystem::rename(part, file, problem);
        if (problem) cannot_write(file, problem.message());
    } catch (...) {
        std::filesystem::remove(part, problem);
        throw;
    }
}

}  // namespace roostward::io
