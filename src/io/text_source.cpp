#include <ogr_api.h>

#include <algorithm>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "gdal_reading.hpp"
#include "roostward/io/text_table.hpp"
#include "roostward/io/values.hpp"
#include "row_sources.hpp"

namespace roostward::io {

namespace {

struct DefinitionReleaser {
    void operator()(OGRFeatureDefnH definition) const noexcept { OGR_FD_Release(definition); }
};
using Definition = std::unique_ptr<std::remove_pointer_t<OGRFeatureDefnH>, DefinitionReleaser>;

/// `only` on a table of text. A column is numeric where every cell that is not empty is a plain number.
class TextFilter {
 public:
    TextFilter(const TextTable& table, const InputSource& source) : definition_(OGR_FD_Create("table")) {
        OGR_FD_Reference(definition_.get());
        const std::vector<bool> numeric = numeric_columns(table);
        for (std::size_t i = 0; i < numeric.size(); ++i) {
            OGRFieldDefnH field = OGR_Fld_Create(table.header()[i].c_str(), numeric[i] ? OFTReal : OFTString);
            OGR_FD_AddFieldDefn(definition_.get(), field);
            OGR_Fld_Destroy(field);
        }
        filter_.emplace(definition_.get(), source);
        feature_.reset(OGR_F_Create(definition_.get()));
    }

    [[nodiscard]] bool accepts(const TextRow& row) const {
        for (std::size_t i = 0; i < row.cells.size(); ++i) {
            const int field = static_cast<int>(i);
            if (row.cells[i].empty())
                OGR_F_SetFieldNull(feature_.get(), field);
            else
                OGR_F_SetFieldString(feature_.get(), field, std::string(row.cells[i]).c_str());
        }
        return filter_->accepts(feature_.get());
    }

 private:
    static std::vector<bool> numeric_columns(const TextTable& table) {
        std::vector<bool> numeric(table.header().size(), true);
        table.for_each([&](const TextRow& row) {
            for (std::size_t i = 0; row.fault == RowFault::none && i < numeric.size(); ++i) {
                if (numeric[i] && !row.cells[i].empty()) numeric[i] = is_plain_number(row.cells[i]);
            }
            return true;
        });
        return numeric;
    }

    Definition definition_;
    std::optional<RowFilter> filter_;
    OwnedFeature feature_;
};

class TextSource : public RowSource {
 public:
    explicit TextSource(const InputSource& source) : table_(bytes_of(source)) {
        if (table_.header().empty()) {
            cannot_use(
                source,
                "there is no header. The first row must name the columns, and its quotes must be closed.");
        }
        if (!source.only.empty()) filter_.emplace(table_, source);
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
            if (filter_ && !filter_->accepts(text)) return true;
            for (std::size_t i = 0; i < values.size(); ++i) {
                if (!wanted[i]) continue;
                if (text.cells[i].empty())
                    values[i] = std::monostate();
                else
                    values[i] = text.cells[i];
            }
            return visit({text.line, values, nullptr, nullptr});
        });
    }

 private:
    [[nodiscard]] RowTrouble trouble_of(const TextRow& row) const {
        const std::string text(row.text.substr(0, 120));
        if (row.fault == RowFault::open_quote) {
            return {"open quote", text,
                    "a quotation mark in this row is not closed: close it or take it out"};
        }
        return {
            "shifted cells", text,
            fmt::format(
                "this row has {} cells and the header {}: look for a missing or surplus separator, and quote "
                "cells that hold one",
                row.cells.size(), columns().size())};
    }

    TextTable table_;
    std::optional<TextFilter> filter_;
    std::optional<geo::Crs> no_crs_;
};

}  // namespace

std::unique_ptr<RowSource> open_text_rows(const InputSource& source) {
    return std::make_unique<TextSource>(source);
}

}  // namespace roostward::io
