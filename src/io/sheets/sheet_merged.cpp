#include <algorithm>
#include <map>
#include <utility>

#include "roostward/io/spreadsheet.hpp"

namespace roostward::io {

namespace {

/// The cell of a row in a column; null where there is none.
const SheetCell* cell_in(const SheetRow& row, std::uint64_t column) {
    const auto found =
        std::lower_bound(row.cells.begin(), row.cells.end(), column,
                         [](const SheetCell& cell, std::uint64_t c) { return cell.column < c; });
    return found == row.cells.end() || found->column != column ? nullptr : &*found;
}

}  // namespace

void Sheet::spread_merged() {
    if (merged_.empty()) return;
    std::stable_sort(merged_.begin(), merged_.end(),
                     [](const Merged& a, const Merged& b) { return a.first_row < b.first_row; });
    struct Open {
        SheetCell cell;
        std::uint64_t last_row = 0;
    };
    std::map<std::uint64_t, Open> open;  // by column
    Sheet spread(name_, hidden_, room_);
    auto next = merged_.begin();
    for (std::size_t i = 0; i < size(); ++i) {
        const SheetRow here = row(i);
        for (; next != merged_.end() && next->first_row <= here.number; ++next) {
            const SheetCell* cell = next->first_row == here.number ? cell_in(here, next->column) : nullptr;
            if (cell != nullptr) open[next->column] = {*cell, next->last_row};
        }
        spread.begin_row(here.number, here.hidden);
        for (const SheetCell& cell : here.cells)
            spread.put(cell.column, cell.kind, cell.value);
        std::erase_if(open, [&](const auto& entry) { return entry.second.last_row < here.number; });
        for (const auto& [column, from] : open) {
            if (cell_in(here, column) != nullptr) continue;
            spread.count_copies(1);
            spread.put(column, from.cell.kind, from.cell.value);
            ++spread_;
        }
    }
    spread.sort_row();
    cells_ = std::move(spread.cells_);
    rows_ = std::move(spread.rows_);
}

}  // namespace roostward::io
