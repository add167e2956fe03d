#pragma once

#include <optional>
#include <vector>

#include "layers/layer_opening.hpp"
#include "places/whereabouts.hpp"

namespace roostward::io {

/// The fields that say in words where something was; to be appended to a layer's own.
[[nodiscard]] std::vector<FieldSpec> with_notes_fields(std::vector<FieldSpec> specs);

/// Reads where a row says that something was, of a layer with the fields of with_notes_fields.
class NotesPlace {
 public:
    explicit NotesPlace(const OpenLayer& layer);

    /// Whether the layer has columns for it.
    [[nodiscard]] bool told() const { return told_; }
    /// By distance and direction, else by tree, else by square. Empty where the row says nothing of the kind,
    /// or was set aside.
    [[nodiscard]] std::optional<Whereabouts> of(const RowReader& row) const;

 private:
    [[nodiscard]] std::optional<Whereabouts> from_station(const RowReader& row) const;

    const Field& distance_;
    const Field& direction_;
    const Field& square_;
    const Field& near_tree_;
    bool told_;
};

}  // namespace roostward::io
