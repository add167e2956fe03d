#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "roostward/core/grid.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/core/units.hpp"

namespace roostward::canopy {

/// Cover is the share of cells this high (inclusive) or higher, among those whose middle lies this near
/// (inclusive). From memory, unverified.
inline constexpr core::Metres cover_height{2.0}, cover_radius{20.0};

/// Of the cell that holds the stem, to the millimetre; empty where it is not known.
[[nodiscard]] std::optional<core::Metres> height_at(const core::Raster& canopy_height, core::PlanePoint stem);

/// The greatest height among the stem's cell and those whose middle lies within the crown's radius
/// (inclusive), to the millimetre; empty where one of them is not known.
[[nodiscard]] std::optional<core::Metres> crown_top(const core::Raster& canopy_height, core::PlanePoint stem,
                                                    core::Metres crown_radius);

/// How far the crown reaches: along 16 rays, to the first cell lower than half of the canopy at the stem; the
/// upper median of them, to the millimetre. Half: common practice, no source. Empty where the canopy at the
/// stem is lower than `cover_height` or not known, where five rays and more come to unknown ground or the end
/// of the model, and where the crown runs into others for 15 m that way.
[[nodiscard]] std::optional<core::Metres> crown_edge(const core::Raster& canopy_height,
                                                     core::PlanePoint stem);

/// Which cells are known and which are covered, a bit each, so that many stems can be asked about.
class CoverMap {
 public:
    CoverMap(const core::Raster& canopy_height, core::Threads threads);

    /// Cover about a stem, from 0 to 1, of the known cells; empty where over a tenth of the cells is not
    /// known. O(rows within cover_radius).
    [[nodiscard]] std::optional<double> about(core::PlanePoint stem) const;

 private:
    void mark_row(const core::Raster& canopy_height, std::size_t row);

    core::Grid grid_;
    std::size_t words_;  ///< a row
    std::vector<std::uint64_t> known_, covered_;
};

/// What a canopy model says of one stem.
struct AtStem {
    std::optional<core::Metres> height, crown_edge;  ///< see height_at and crown_edge
    std::optional<double> cover;                     ///< see CoverMap
};

}  // namespace roostward::canopy
