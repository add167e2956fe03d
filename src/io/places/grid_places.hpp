#pragma once

#include <optional>

#include "layers/layer_opening.hpp"
#include "roostward/core/point.hpp"

namespace roostward::io {

/// Reads grid references in the coordinates of their layer.
class GridPlaces {
 public:
    explicit GridPlaces(LayerFacts& facts) : facts_(facts) {}

    struct Square {
        core::PlanePoint middle;
        core::Metres side;
    };
    /// Empty where the row was set aside. A square of 100 m and more is a doubt.
    [[nodiscard]] std::optional<Square> read(const RowReader& row, const Field& field);

 private:
    LayerFacts& facts_;
};

}  // namespace roostward::io
