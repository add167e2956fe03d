#include <algorithm>
#include <optional>

#include "files/input_file.hpp"
#include "files/row_sources.hpp"
#include "files/table_filter.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/io/text_table.hpp"

namespace roostward::io {

namespace {

Value value_of(std::string_view cell) {
    return cell.empty() ? Value() : Value(cell);
}

TableFilter filter_for(const TextTable& table, const InputSource& source) {
    NumericColumns numeric(table.header().size());
    table.for_each([&](const TextRow& row) {
        for (std::size_t i = 0; row.fault == RowFault::none && i < row.cells.size(); ++i)
            numeric.look_at(i, value_of(row.cells[i]));
        return true;
    });
    return {table.header(), numeric.found(), source};
}

class TextSource : public RowSource {
 public:
    explicit TextSource(const InputSource& source) : table_(bytes_of(source)) {
        if (table_.header().empty()) {
            cannot_use(source, core::said("error.no_header"));
        }
        if (!source.only.empty()) filter_.emplace(filter_for(table_, source));
    }

    [[nodiscard]] const std::vector<std::string>& columns() const override { return table_.header(); }
    [[nodiscard]] bool has_geometry() const override { return false; }
    [[nodiscard]] const std::optional<geo::Crs>& crs() const override { return no_crs_; }

    [[nodiscard]] std::size_t expected_rows() const override { return table_.line_count(); }

    [[nodiscard]] std::vector<RowTrouble> notes() const override { return encoding_notes(table_.encoding()); }

    void for_each(const std::vector<bool>& wanted, const Visitor& visit) override {
        std::vector<Value> values(columns().size());
        table_.for_each([&](const TextRow& text) {
            if (text.fault != RowFault::none) {
                const RowTrouble trouble = trouble_of(text);
                std::fill(values.begin(), values.end(), Value());
                return visit({text.line, values, nullptr, &trouble});
            }
            for (std::size_t i = 0; i < values.size(); ++i) {
                if (wanted[i] || filter_) values[i] = value_of(text.cells[i]);
            }
            if (filter_ && !filter_->accepts(values)) return true;
            return visit({text.line, values, nullptr, nullptr});
        });
    }

 private:
    [[nodiscard]] RowTrouble trouble_of(const TextRow& row) const {
        const std::string text(row.text.substr(0, 120));
        if (row.fault == RowFault::open_quote) {
            return {"open quote", text, core::said("finding.open_quote")};
        }
        return {"shifted cells", text,
                core::said("finding.shifted_cells",
                           {{"cells", row.cells.size()}, {"columns", columns().size()}})};
    }

    TextTable table_;
    std::optional<TableFilter> filter_;
    std::optional<geo::Crs> no_crs_;
};

}  // namespace

std::unique_ptr<RowSource> open_text_rows(const InputSource& source) {
    return std::make_unique<TextSource>(source);
}

}  // namespace roostward::io
