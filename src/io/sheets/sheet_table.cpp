#include "sheets/sheet_table.hpp"

#include <algorithm>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/values.hpp"

namespace roostward::io {

namespace {

[[noreturn]] void stop(const std::string& sentence) {
    throw core::Error(core::Fault::inputs, {}, sentence);
}

std::string names_of(const Workbook& book, const std::vector<std::size_t>& sheets) {
    std::vector<std::string_view> names;
    names.reserve(sheets.size());
    for (const std::size_t i : sheets)
        names.push_back(book.sheets[i].name());
    return fmt::format("{}", fmt::join(names, ", "));
}

template <class Which>
std::vector<std::size_t> sheets_where(const Workbook& book, const Which& which) {
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < book.sheets.size(); ++i) {
        if (which(book.sheets[i])) found.push_back(i);
    }
    return found;
}

std::size_t named_sheet(const Workbook& book, const std::string& name) {
    const auto exact = sheets_where(book, [&](const Sheet& s) { return s.name() == name; });
    if (!exact.empty()) return exact.front();
    const auto alike =
        sheets_where(book, [&](const Sheet& s) { return bare_word(s.name()) == bare_word(name); });
    if (!alike.empty()) return alike.front();
    const auto all = sheets_where(book, [](const Sheet&) { return true; });
    stop(core::said("error.no_such_sheet", {{"sheet", name}, {"sheets", names_of(book, all)}}));
}

std::size_t only_sheet(const Workbook& book) {
    const std::vector<std::size_t> filled = sheets_with_rows(book);
    if (filled.size() > 1) stop(core::said("error.several_sheets", {{"sheets", names_of(book, filled)}}));
    if (!filled.empty()) return filled.front();
    const auto blank =
        sheets_where(book, [](const Sheet& s) { return !s.hidden() && header_row(s).has_value(); });
    if (!blank.empty()) return blank.front();
    stop(core::said("error.no_table"));
}

/// A header as one line of text.
std::string title_of(const Value& value) {
    const auto* text = std::get_if<std::string_view>(&value);
    std::string title = text != nullptr ? std::string(*text) : fmt::format("{}", std::get<double>(value));
    std::replace_if(
        title.begin(), title.end(), [](char c) { return c == '\n' || c == '\r' || c == '\t'; }, ' ');
    return title;
}

std::string shown(const SheetRow& row) {
    std::string text;
    for (const SheetCell& cell : row.cells)
        text += (text.empty() ? "" : ", ") + title_of(cell.value);
    return text.size() <= 120 ? text : text.substr(0, text.find_last_of(' ', 117)) + " …";
}

std::string letters_of(std::uint32_t column) {
    std::string letters;
    for (std::uint32_t rest = column + 1; rest > 0; rest = (rest - 1) / 26)
        letters.insert(letters.begin(), static_cast<char>('A' + (rest - 1) % 26));
    return letters;
}

void note_header(const Sheet& sheet, SheetTable& table) {
    if (table.header == 0) return;
    const SheetRow row = sheet.row(table.header);
    table.notes.push_back(
        {"header below the top", shown(row),
         core::said(table.header == 1 ? "finding.header_below_row" : "finding.header_below_rows",
                    {{"row", row.number}})});
}

void note_hidden_rows(const Sheet& sheet, SheetTable& table) {
    std::size_t count = 0, first = 0;
    for (std::size_t i = table.header + 1; i < sheet.size(); ++i) {
        if (sheet.row(i).hidden && count++ == 0) first = sheet.row(i).number;
    }
    if (count == 0) return;
    table.notes.push_back(
        {"hidden rows", fmt::format("{}", count), core::said("finding.hidden_rows", {{"row", first}})});
}

void note_columns(const Sheet& sheet, SheetTable& table) {
    std::vector<std::string> hidden;
    for (std::size_t i = 0; i < table.at.size(); ++i) {
        if (sheet.column_hidden(table.at[i])) hidden.push_back(table.columns[i]);
    }
    if (!hidden.empty())
        table.notes.push_back({"hidden columns", fmt::format("{}", fmt::join(hidden, ", ")),
                               core::said("finding.hidden_columns")});
    std::set<std::uint32_t> nameless;
    for (std::size_t i = table.header + 1; i < sheet.size(); ++i) {
        for (const SheetCell& cell : sheet.row(i).cells) {
            if (!std::binary_search(table.at.begin(), table.at.end(), cell.column))
                nameless.insert(cell.column);
        }
    }
    if (nameless.empty()) return;
    std::vector<std::string> letters;
    letters.reserve(nameless.size());
    for (const std::uint32_t column : nameless)
        letters.push_back(letters_of(column));
    table.notes.push_back({"columns without a name", fmt::format("{}", fmt::join(letters, ", ")),
                           core::said("finding.columns_without_name")});
}

void note_merged(const Sheet& sheet, SheetTable& table) {
    if (sheet.spread_count() == 0) return;
    table.notes.push_back(
        {"merged cells", fmt::format("{}", sheet.spread_count()), core::said("finding.merged_cells")});
}

bool all_texts(const SheetRow& row) {
    return std::all_of(row.cells.begin(), row.cells.end(),
                       [](const SheetCell& cell) { return cell.kind == CellKind::text; });
}

}  // namespace

std::optional<std::size_t> header_row(const Sheet& sheet) {
    std::size_t widest = 0;
    for (std::size_t i = 0; i < sheet.size(); ++i)
        widest = std::max(widest, sheet.row(i).cells.size());
    if (widest < 2) return std::nullopt;
    constexpr std::size_t looked_at = 20;
    std::optional<std::size_t> first_wide;
    for (std::size_t i = 0; i < sheet.size() && (i < looked_at || !first_wide); ++i) {
        const SheetRow row = sheet.row(i);
        if (2 * row.cells.size() < widest) continue;
        if (all_texts(row) && i < looked_at) return i;
        if (!first_wide) first_wide = i;
    }
    return first_wide;
}

std::vector<std::size_t> sheets_with_rows(const Workbook& book) {
    return sheets_where(book, [](const Sheet& sheet) {
        const std::optional<std::size_t> header = header_row(sheet);
        return !sheet.hidden() && header && *header + 1 < sheet.size();
    });
}

SheetTable table_in(const Workbook& book, const std::string& name) {
    SheetTable table;
    table.sheet = name.empty() ? only_sheet(book) : named_sheet(book, name);
    const Sheet& sheet = book.sheets[table.sheet];
    const std::optional<std::size_t> header = header_row(sheet);
    if (!header) stop(core::said("error.no_table_in_sheet", {{"sheet", sheet.name()}}));
    table.header = *header;
    for (const SheetCell& cell : sheet.row(*header).cells) {
        table.columns.push_back(title_of(cell.value));
        table.at.push_back(cell.column);
    }
    table.totals = total_rows(sheet, *header);
    note_header(sheet, table);
    note_hidden_rows(sheet, table);
    note_columns(sheet, table);
    note_merged(sheet, table);
    return table;
}

}  // namespace roostward::io
