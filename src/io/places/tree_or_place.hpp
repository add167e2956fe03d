#pragma once

#include <optional>

#include "places/place_reader.hpp"
#include "places/whereabouts.hpp"

namespace roostward::io {

/// Where a row lies that may name the tree it is at instead.
class TreeOrPlace {
 public:
    TreeOrPlace(const OpenLayer& layer, const InputSource& source, LayerFacts& facts, const Field& tree);

    /// The position of a row that has coordinates, else `elsewhere` at its tree. Rows with neither are set
    /// aside.
    [[nodiscard]] core::PlanePoint take(const RowReader& row, std::optional<Whereabouts>& elsewhere) const;

 private:
    const Field& tree_;
    std::optional<PlaceReader> place_;
};

}  // namespace roostward::io
