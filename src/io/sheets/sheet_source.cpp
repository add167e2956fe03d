#include <algorithm>
#include <optional>

#include "files/input_file.hpp"
#include "files/row_sources.hpp"
#include "files/table_filter.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "sheets/sheet_table.hpp"

namespace roostward::io {

namespace {

/// Adds the file and its layer to what went wrong in it.
template <class Action>
auto placed(const InputSource& source, const Action& action) {
    try {
        return action();
    } catch (const core::Error& error) {
        if (!error.place().file.empty()) throw;
        cannot_use(source, error.what());
    }
}

class SheetSource : public RowSource {
 public:
    explicit SheetSource(const InputSource& source)
        : book_(placed(source, [&] { return read_workbook(bytes_of(source)); })),
          table_(placed(source, [&] { return table_in(book_, source.layer); })) {
        if (!source.only.empty()) filter_.emplace(filter_for(source));
    }

    [[nodiscard]] const std::vector<std::string>& columns() const override { return table_.columns; }
    [[nodiscard]] bool has_geometry() const override { return false; }
    [[nodiscard]] const std::optional<geo::Crs>& crs() const override { return no_crs_; }
    [[nodiscard]] std::size_t expected_rows() const override { return sheet().size() - table_.header - 1; }
    [[nodiscard]] std::vector<RowTrouble> notes() const override { return table_.notes; }

    void for_each(const std::vector<bool>& wanted, const Visitor& visit) override {
        Cells cells(columns().size());
        const std::vector<bool> all(columns().size(), true);
        for (std::size_t i = table_.header + 1; i < sheet().size(); ++i) {
            const SheetRow row = sheet().row(i);
            if (is_total(i)) {
                if (!visit_total(row, cells, visit)) return;
                continue;
            }
            if (!take(row, filter_ ? all : wanted, cells)) continue;
            if (filter_ && !filter_->accepts(cells.values)) continue;
            if (!visit({row.number, cells.values, nullptr, nullptr, cells.troubles})) return;
        }
    }

 private:
    /// A row by the table's columns.
    struct Cells {
        explicit Cells(std::size_t columns) : values(columns) {}
        std::vector<Value> values;
        std::vector<CellTrouble> troubles;
    };

    [[nodiscard]] const Sheet& sheet() const { return book_.sheets[table_.sheet]; }

    [[nodiscard]] bool is_total(std::size_t index) const {
        return std::binary_search(table_.totals.begin(), table_.totals.end(), index);
    }

    static bool visit_total(const SheetRow& row, Cells& cells, const Visitor& visit) {
        const auto* label = std::find_if(row.cells.data(), row.cells.data() + row.cells.size(),
                                         [](const SheetCell& cell) { return cell.kind == CellKind::text; });
        const RowTrouble trouble{"total", std::string(std::get<std::string_view>(label->value)),
                                 core::said("finding.total"), true};
        std::fill(cells.values.begin(), cells.values.end(), Value());
        return visit({row.number, cells.values, nullptr, &trouble, {}});
    }

    /// Whether the row holds anything in a column with a name.
    bool take(const SheetRow& row, const std::vector<bool>& wanted, Cells& cells) const {
        std::fill(cells.values.begin(), cells.values.end(), Value());
        cells.troubles.clear();
        bool holds_something = false;
        for (const SheetCell& cell : row.cells) {
            const auto found = std::lower_bound(table_.at.begin(), table_.at.end(), cell.column);
            if (found == table_.at.end() || *found != cell.column) continue;
            holds_something = true;
            const auto column = static_cast<std::size_t>(found - table_.at.begin());
            if (!wanted[column]) continue;
            if (cell.kind == CellKind::error)
                cells.troubles.push_back({column, std::get<std::string_view>(cell.value)});
            else
                cells.values[column] = cell.value;
        }
        return holds_something;
    }

    [[nodiscard]] TableFilter filter_for(const InputSource& source) const {
        NumericColumns numeric(columns().size());
        Cells cells(columns().size());
        const std::vector<bool> all(columns().size(), true);
        for (std::size_t i = table_.header + 1; i < sheet().size(); ++i) {
            if (is_total(i)) continue;
            take(sheet().row(i), all, cells);
            for (std::size_t k = 0; k < cells.values.size(); ++k)
                numeric.look_at(k, cells.values[k]);
        }
        return {columns(), numeric.found(), source};
    }

    Workbook book_;
    SheetTable table_;
    std::optional<TableFilter> filter_;
    std::optional<geo::Crs> no_crs_;
};

}  // namespace

std::vector<std::string> sheets_with_rows(const InputSource& source) {
    return placed(source, [&] {
        const Workbook book = read_workbook(bytes_of(source));
        std::vector<std::string> names;
        for (const std::size_t i : sheets_with_rows(book))
            names.push_back(book.sheets[i].name());
        return names;
    });
}

std::unique_ptr<RowSource> open_sheet_rows(const InputSource& source) {
    return std::make_unique<SheetSource>(source);
}

}  // namespace roostward::io
