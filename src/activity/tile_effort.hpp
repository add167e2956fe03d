#pragma once

#include <span>

#include "evening_tiles.hpp"
#include "spline_field.hpp"

namespace roostward::activity {

/// Spline surfaces of what was watched on a tile. Their cells are coarser than those of flights where the
/// spots allow.
struct TileEffort {
    TileCells smoothed;    ///< Ē: hours
    TileCells observable;  ///< Σ E_w/ℓ_w: hours a metre
    TileCells unplaced;    ///< metres heard but not placed, per m²: only where the model has any
};

/// Makes the surfaces of one tile.
class EffortLayer {
 public:
    EffortLayer(const EveningModel& model, double h, const Tile& tile);
    /// Nothing watched, and where the cells lie.
    [[nodiscard]] TileEffort none() const;
    [[nodiscard]] TileEffort of_spots(std::span<const std::uint32_t> spots);
    /// One evening on even ground, ℓ = 1 m. Each cell counts by its share of ground.
    [[nodiscard]] TileEffort of_even_ground();

 private:
    void smooth(TileEffort& effort);

    const EveningModel& model_;
    std::vector<std::vector<float>> smoothing_;  ///< taps, one a blur
    std::vector<float> sharpening_;              ///< so that the surface meets the values
    TileCells surface_;                          ///< an empty one
    TileCells hours_, observable_, unplaced_;    ///< at the middles of cells, with room for the taps
    std::vector<float> scratch_;
};

}  // namespace roostward::activity
