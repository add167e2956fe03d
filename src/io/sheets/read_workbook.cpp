#include <algorithm>
#include <array>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "sheets/workbook_readers.hpp"
#include "sheets/zip_package.hpp"

namespace roostward::io {

namespace {

using namespace std::string_view_literals;

[[noreturn]] void refuse(const std::string& sentence) {
    throw core::Error(core::Fault::inputs, {}, sentence);
}

/// Office programs before 2007 wrote compound files, and a password makes one of any spreadsheet.
void refuse_compound_file(std::string_view bytes) {
    if (!bytes.starts_with("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1"sv)) return;
    constexpr std::string_view encrypted = "E\0n\0c\0r\0y\0p\0t\0e\0d\0P\0a\0c\0k\0a\0g\0e\0"sv;
    if (bytes.find(encrypted) != std::string_view::npos) locked();
    refuse(core::said("error.xls"));
}

bool has_part(const ReadPart& read, const char* name) {
    return read(name, [](std::string_view) {});
}

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view white = " \t\r\n\v\f";
    constexpr std::string_view hard_space = "\u00A0";
    while (true) {
        if (text.starts_with(hard_space)) text.remove_prefix(hard_space.size());
        if (text.ends_with(hard_space)) text.remove_suffix(hard_space.size());
        const std::size_t first = text.find_first_not_of(white);
        if (first == std::string_view::npos) return {};
        const std::string_view inside = text.substr(first, text.find_last_not_of(white) - first + 1);
        if (!inside.starts_with(hard_space) && !inside.ends_with(hard_space)) return inside;
        text = inside;
    }
}

bool is_error_text(std::string_view text) {
    constexpr std::array<std::string_view, 10> errors = {"#N/A",  "#REF!",  "#DIV/0!", "#VALUE!", "#NAME?",
                                                         "#NUM!", "#NULL!", "#SPILL!", "#CALC!",  "#FIELD!"};
    return std::find(errors.begin(), errors.end(), text) != errors.end();
}

}  // namespace

bool read_xml(const ReadPart& read, const std::string& name, XmlHandler& handler) {
    XmlReader reader(handler);
    if (!read(name, [&](std::string_view piece) { reader.feed(piece); })) return false;
    reader.finish();
    return true;
}

void put_text(Workbook& book, std::uint64_t column, std::string_view text, std::uint64_t times) {
    const std::string_view inside = trimmed(text);
    if (inside.empty()) return;
    const CellKind kind = is_error_text(inside) ? CellKind::error : CellKind::text;
    book.sheets.back().put(column, kind, book.texts.keep(inside), times);
}

void append_text(std::string& text, std::string_view more) {
    constexpr std::size_t longest = std::size_t{1} << 20U;
    if (text.size() + more.size() > longest) damaged(core::said("damaged.long_cell"));
    text += more;
}

Workbook read_workbook(const ReadPart& read) {
    if (has_part(read, "content.xml")) return read_ods(read);
    const std::string workbook = main_part(read);
    if (workbook.ends_with(".bin")) refuse(core::said("error.xlsb"));
    if (workbook.empty()) refuse(core::said("error.packed"));
    return read_xlsx(read, workbook);
}

Workbook read_workbook(std::string_view bytes) {
    refuse_compound_file(bytes);
    if (!bytes.starts_with("PK")) refuse(core::said("error.no_spreadsheet"));
    ZipPackage package(bytes);
    return read_workbook([&](const std::string& name, const auto& take) { return package.read(name, take); });
}

}  // namespace roostward::io
