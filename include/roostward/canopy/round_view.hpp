#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "roostward/core/grid.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/core/units.hpp"

namespace roostward::canopy {

/// So many rays go out from a trunk, one every 5°, the first to grid north, then clockwise.
inline constexpr std::size_t rays = 72;
[[nodiscard]] core::Degrees bearing_of(std::size_t ray);

/// How far a ray looks for what stands in the way, and for what shuts out the sun.
inline constexpr core::Metres clear_looked{20.0}, horizon_looked{60.0};

/// The highest canopy in square blocks of cells: where a ray need not look cell by cell. Refers to the model.
class BlockTops {
 public:
    static constexpr std::size_t side = 8;  ///< cells

    explicit BlockTops(const core::Raster& canopy_height, core::Threads threads);

    [[nodiscard]] const core::Raster& canopy_height() const { return canopy_height_; }
    /// Of the block that holds the cell; infinite where a cell is unknown or the block lies across the
    /// model's edge.
    [[nodiscard]] float over(core::Cell cell) const {
        return tops_[cell.row / side * columns_ + cell.column / side];
    }
    /// The highest of all blocks that lie within `reach` of a point; infinite where the model ends there.
    [[nodiscard]] float about(core::PlanePoint point, core::Metres reach) const;

 private:
    const core::Raster& canopy_height_;
    std::size_t rows_, columns_;
    std::vector<float> tops_;
};

/// An entrance on a trunk.
struct Entrance {
    core::PlanePoint stem;
    core::Metres height;  ///< as the model counts heights: above the ground, or above sea
    core::Metres crown_radius;
};

/// What an entrance has about it. The tree's own crown is left out: cells with canopy above the entrance that
/// follow each other from the trunk on, up to the crown's radius. A canopy model cannot see under crowns:
/// confirm on foot. Not a number marks a ray that came to unknown ground or to the end of the model first.
struct RoundView {
    std::array<float, rays> clear;  ///< metres from the stem to the first canopy above the entrance, at most
                                    ///< `clear_looked`
    std::array<float, rays> horizon;  ///< degrees above level, of the highest canopy; 0 where it is lower, 90
                                      ///< where it is steep enough
};

/// Tangents, ray by ray.
using Slopes = std::array<double, rays>;

/// `steep_enough`: how high a horizon need not be known beyond, as nothing stands higher that it could hide.
/// O(rays · horizon_looked / cell) at most: rays end where no canopy can stand higher than what they met, or
/// where that is steep enough.
[[nodiscard]] RoundView look_round(const BlockTops& tops, const Entrance& entrance,
                                   const Slopes& steep_enough);

/// Rays side by side: those within some turn (inclusive) of a grid bearing.
struct Wedge {
    std::size_t first = 0, count = 0;  ///< clockwise
};
[[nodiscard]] Wedge wedge_about(core::Degrees grid_bearing, core::Degrees to_each_side);

/// The shortest of the free ways in a wedge; empty where one of them is not known.
[[nodiscard]] std::optional<core::Metres> clear_in(const RoundView& view, Wedge wedge);

/// How far what grows before an entrance leaves it to drop: from the entrance to the highest canopy no higher
/// than itself, in cells that begin nearer than `within`, along the rays of a wedge.
/// Crowns above the entrance hide what is under them. Empty where nothing but crowns is seen, or something
/// unknown.
[[nodiscard]] std::optional<core::Metres> drop_toward(const core::Raster& canopy_height,
                                                      const Entrance& entrance, core::Degrees grid_bearing,
                                                      core::Degrees to_each_side, core::Metres within);

}  // namespace roostward::canopy
