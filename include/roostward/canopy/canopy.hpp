#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "roostward/core/grid.hpp"
#include "roostward/core/units.hpp"

namespace roostward::canopy {

struct GapSettings {
    core::Metres height{2.0};       ///< canopy no higher than this (inclusive) is open
    core::SquareMetres area{25.0};  ///< connected open ground of at least this (inclusive) is a gap

    friend bool operator==(const GapSettings&, const GapSettings&) = default;
};

/// Connected open ground (cells that share an edge). Unknown cells are never open.
struct GapMap {
    core::Grid grid;
    std::vector<std::uint32_t> label;  ///< a cell's gap from 1; 0: no gap. Numbered by first cell, row by row
    std::vector<core::SquareMetres> area;  ///< one a gap, gap 1 first
};

/// Canopy gaps after Brokaw 1982 (Biotropica 14). O(cells).
[[nodiscard]] GapMap find_gaps(const core::Raster& canopy_height, const GapSettings& settings);

struct GapAt {
    core::SquareMetres area;
    core::Metres to_canopy;  ///< from the stem to the nearest cell with canopy, at most `looked`
    core::Metres looked;
};

/// The gap a stem stands in, if any. `reach` says how far to look for canopy (cell centres, inclusive).
[[nodiscard]] std::optional<GapAt> gap_at(const GapMap& gaps, const core::Raster& canopy_height,
                                          core::Metres gap_height, core::PlanePoint stem, core::Metres reach);

}  // namespace roostward::canopy
