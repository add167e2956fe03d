#include <algorithm>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/spreadsheet.hpp"

namespace roostward::io {

namespace {

constexpr std::uint64_t most_columns = 16'384;  // of every common office program
constexpr std::size_t most_cells = 10'000'000;
constexpr std::uint64_t most_copies = 1'000'000;

[[noreturn]] void too_large(std::string_view what) {
    throw core::Error(core::Fault::inputs, {}, core::said("error.too_large", {{"what", core::said(what)}}));
}

}  // namespace

SheetRow Sheet::row(std::size_t index) const {
    const std::size_t end = index + 1 < rows_.size() ? rows_[index + 1].first : cells_.size();
    const Start& start = rows_[index];
    return {start.number, start.hidden, std::span(cells_).subspan(start.first, end - start.first)};
}

bool Sheet::column_hidden(std::uint32_t column) const {
    return std::any_of(hidden_columns_.begin(), hidden_columns_.end(), [&](const Columns& columns) {
        return column >= columns.first && column - columns.first < columns.count;
    });
}

std::span<SheetCell> Sheet::present_row() {
    return std::span(cells_).subspan(next_.first);
}

void Sheet::count_copies(std::uint64_t copies) {
    copies_ += copies;
    if (copies_ > most_copies) too_large("too_large.copies");
}

void Sheet::put(std::uint64_t column, CellKind kind, Value value, std::uint64_t times) {
    if (times > most_columns || column + times > most_columns) too_large("too_large.columns");
    if (cells_.size() + times > room_) too_large("too_large.cells");
    count_copies(times - 1);
    if (present_row().empty()) rows_.push_back(next_);
    for (std::uint64_t i = 0; i < times; ++i)
        cells_.push_back({value, static_cast<std::uint32_t>(column + i), kind});
}

void Sheet::begin_row(std::size_t number, bool hidden) {
    sort_row();
    next_ = {number, hidden, cells_.size()};
}

void Sheet::finish() {
    sort_row();
    spread_merged();
}

void Sheet::sort_row() {
    const std::span<SheetCell> row = present_row();
    const auto by_column = [](const SheetCell& a, const SheetCell& b) { return a.column < b.column; };
    if (!std::is_sorted(row.begin(), row.end(), by_column))
        std::stable_sort(row.begin(), row.end(), by_column);
}

void Sheet::repeat_row(std::uint64_t times) {
    const std::size_t size = present_row().size();
    if (size == 0) return;
    for (std::uint64_t i = 0; i < times; ++i) {
        count_copies(size);
        const std::size_t from = next_.first;
        begin_row(next_.number + 1, next_.hidden);
        for (std::size_t k = 0; k < size; ++k) {
            const SheetCell cell = cells_[from + k];
            put(cell.column, cell.kind, cell.value);
        }
    }
}

Sheet& Workbook::add_sheet(std::string name, bool hidden) {
    std::size_t room = most_cells;
    for (const Sheet& sheet : sheets)
        room -= sheet.cell_count();
    return sheets.emplace_back(std::move(name), hidden, room);
}

std::string_view TextPool::keep(std::string_view text) {
    constexpr std::size_t block = std::size_t{64} << 10U;
    if (blocks_.empty() || blocks_.back().capacity() - blocks_.back().size() < text.size())
        blocks_.emplace_back().reserve(std::max(block, text.size()));
    std::string& last = blocks_.back();
    const std::size_t at = last.size();
    last.append(text);
    return std::string_view(last).substr(at);
}

}  // namespace roostward::io
