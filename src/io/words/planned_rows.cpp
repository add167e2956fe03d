#include "words/planned_rows.hpp"

#include <algorithm>
#include <utility>

#include "roostward/core/catalogue.hpp"

namespace roostward::io {

std::vector<FieldSpec> with_planned_fields(std::vector<FieldSpec> specs) {
    specs.push_back({"planned_start", {}, Dimension::plain, {}});
    specs.push_back({"planned_end", {}, Dimension::plain, {}});
    return specs;
}

PlannedRows::PlannedRows(LayerFacts& facts, const FieldMap& fields)
    : facts_(facts), fields_(fields), start_(fields.at("planned_start")), end_(fields.at("planned_end")) {}

bool PlannedRows::has(const RowReader& row) const {
    return !says_nothing(row.text(start_)) || !says_nothing(row.text(end_));
}

bool PlannedRows::blank(const RowReader& row, std::initializer_list<std::string_view> filled_in) const {
    return std::ranges::all_of(fields_.all(), [&](const Field& field) {
        return &field == &start_ || &field == &end_ ||
               std::ranges::find(filled_in, field.name) != filled_in.end() || says_nothing(row.text(field));
    });
}

void PlannedRows::set_apart(const RowReader& row, const char* kind, const char* sentence) const {
    row.report().set_apart_alike(kind, core::said(sentence));
    ++facts_.to_come;
}

}  // namespace roostward::io
