#include <xlsxwriter.h>

#include <algorithm>
#include <fstream>
#include <iterator>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/spreadsheet.hpp"
#include "roostward/io/writers.hpp"
#include "writing/write_text.hpp"

namespace roostward::io {

namespace {

constexpr unsigned char text_format = 49;  // ECMA-376, part 1, section 18.8.30: "@"

struct Formats {
    explicit Formats(lxw_workbook* book) : text(workbook_add_format(book)), bold(workbook_add_format(book)) {
        for (lxw_format* format : {text, bold})
            format_set_num_format_index(format, text_format);
        format_set_bold(bold);
    }
    lxw_format* text;
    lxw_format* bold;
};

/// The same bytes whenever it is written.
void stamp(lxw_workbook* book) {
    lxw_doc_properties properties{};
    properties.created = 315'532'800;  // 1980-01-01, the first day that ZIP files know
    workbook_set_properties(book, &properties);
}

void put_row(lxw_worksheet* sheet, std::size_t row, const std::vector<std::string>& cells,
             lxw_format* format) {
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (!cells[i].empty())
            worksheet_write_string(sheet, static_cast<lxw_row_t>(row), static_cast<lxw_col_t>(i),
                                   cells[i].c_str(), format);
    }
}

void put_sheet(lxw_workbook* book, const geo::NamedTable& named, const Formats& formats) {
    lxw_worksheet* sheet = workbook_add_worksheet(book, named.name.c_str());
    if (sheet == nullptr) return;
    const geo::Table& table = named.table;
    for (std::size_t i = 0; i < table.header.size(); ++i) {
        const auto column = static_cast<lxw_col_t>(i);
        const double width =
            static_cast<double>(std::clamp(table.header[i].size() + 2, std::size_t{10}, std::size_t{90}));
        worksheet_set_column(sheet, column, column, width, formats.text);
    }
    worksheet_ignore_errors(sheet, LXW_IGNORE_NUMBER_STORED_AS_TEXT, "A1:XFD1048576");
    worksheet_freeze_panes(sheet, 1, 0);
    put_row(sheet, 0, table.header, formats.bold);
    for (std::size_t i = 0; i < table.rows.size(); ++i)
        put_row(sheet, i + 1, table.rows[i], formats.text);
}

/// Whether the row holds these texts and no others.
bool is_row(const SheetRow& row, const std::vector<std::string>& cells) {
    auto left = row.cells.begin();
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (cells[i].empty()) continue;
        if (left == row.cells.end() || left->column != i || left->value != Value(cells[i])) return false;
        ++left;
    }
    return left == row.cells.end();
}

bool holds(const Sheet& sheet, const geo::NamedTable& named) {
    const auto& [header, rows] = named.table;
    if (sheet.name() != named.name || sheet.size() != rows.size() + 1 || !is_row(sheet.row(0), header))
        return false;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (!is_row(sheet.row(i + 1), rows[i])) return false;
    }
    return true;
}

/// Whether the disk holds what was to be written.
bool holds(const std::filesystem::path& file, std::span<const geo::NamedTable> sheets) {
    std::ifstream in(file, std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(in), {}};
    try {
        const Workbook book = read_workbook(bytes);
        return std::equal(
            book.sheets.begin(), book.sheets.end(), sheets.begin(), sheets.end(),
            [](const Sheet& sheet, const geo::NamedTable& named) { return holds(sheet, named); });
    } catch (const core::Error&) {
        return false;
    }
}

}  // namespace

void write_xlsx(const std::filesystem::path& file, std::span<const geo::NamedTable> sheets) {
    lxw_workbook* book = workbook_new(file.c_str());
    if (book == nullptr) cannot_write(file, core::said("unwritten.no_memory"));
    stamp(book);
    const Formats formats(book);
    for (const geo::NamedTable& sheet : sheets)
        put_sheet(book, sheet, formats);
    const lxw_error problem = workbook_close(book);
    if (problem != LXW_NO_ERROR) cannot_write(file, lxw_strerror(problem));
    if (!holds(file, sheets)) cannot_write(file, core::said("unwritten.not_there"));
}

}  // namespace roostward::io
