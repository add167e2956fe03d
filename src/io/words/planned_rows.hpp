#pragma once

#include <initializer_list>
#include <string_view>
#include <vector>

#include "layers/layer_opening.hpp"

/// Sheets that were filled in with evenings to come: what is planned stands in columns of its own, and counts
/// for nothing until somebody writes what was.
namespace roostward::io {

/// `planned_start` and `planned_end`, to be appended to a layer's own.
[[nodiscard]] std::vector<FieldSpec> with_planned_fields(std::vector<FieldSpec> specs);

class PlannedRows {
 public:
    explicit PlannedRows(LayerFacts& facts, const FieldMap& fields);

    /// Whether the row was planned, held or not.
    [[nodiscard]] bool has(const RowReader& row) const;
    /// Whether nothing stands in it but what was planned and `filled_in` with it.
    [[nodiscard]] bool blank(const RowReader& row, std::initializer_list<std::string_view> filled_in) const;
    /// Sets the present row apart, and counts it among those to come. `sentence` is the catalogue's key.
    void set_apart(const RowReader& row, const char* kind, const char* sentence) const;

 private:
    LayerFacts& facts_;
    const FieldMap& fields_;
    const Field& start_;
    const Field& end_;
};

}  // namespace roostward::io
