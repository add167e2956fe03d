#include <algorithm>
#include <array>

#include "roostward/io/values.hpp"
#include "sheets/sheet_table.hpp"

namespace roostward::io {

namespace {

constexpr std::array<std::string_view, 36> total_words = {
    "total",       "totals",        "grandtotal", "subtotal",   "sum",          "average", "avg",    "mean",
    "median",      "count",         "minimum",    "maximum",    "min",          "max",     "summe",  "gesamt",
    "gesamtsumme", "zwischensumme", "insgesamt",  "mittelwert", "durchschnitt", "anzahl",  "totaal", "som",
    "gemiddelde",  "aantal",        "totaux",     "somme",      "moyenne",      "nombre",  "totale", "somma",
    "suma",        "promedio",      "soma",       "media"};

/// "Total", "Total:", "Total trees", "Σ".
bool says_total(std::string_view label) {
    if (label.starts_with("\u03A3")) return true;
    const auto is_word = [](std::string_view text) {
        std::string bare = bare_word(text);
        if (bare.ends_with(':')) bare.pop_back();
        return std::find(total_words.begin(), total_words.end(), bare) != total_words.end();
    };
    return is_word(label) || is_word(label.substr(0, label.find_first_of(" :(")));
}

/// A label of a total, and nothing else but numbers.
bool is_total(const SheetRow& row) {
    const auto is_number = [](const SheetCell& cell) {
        const auto* text = std::get_if<std::string_view>(&cell.value);
        return cell.kind == CellKind::number || cell.kind == CellKind::error ||
               (text != nullptr && cell.kind == CellKind::text && is_plain_number(*text));
    };
    const auto label = std::find_if_not(row.cells.begin(), row.cells.end(), is_number);
    if (label == row.cells.end() || label->kind != CellKind::text) return false;
    return says_total(std::get<std::string_view>(label->value)) &&
           std::all_of(label + 1, row.cells.end(), is_number);
}

bool is_line_of_text(const SheetRow& row) {
    return row.cells.size() == 1 && row.cells.front().kind == CellKind::text;
}

}  // namespace

std::vector<std::size_t> total_rows(const Sheet& sheet, std::size_t header) {
    std::vector<std::size_t> found;
    for (std::size_t i = sheet.size(); i-- > header + 1;) {
        const SheetRow row = sheet.row(i);
        if (is_total(row))
            found.push_back(i);
        else if (!is_line_of_text(row))
            break;
    }
    std::reverse(found.begin(), found.end());
    return found;
}

}  // namespace roostward::io
