#pragma once

#include <span>
#include <vector>

#include "tile_effort.hpp"

namespace roostward::activity {

/// One tile's part of the log-likelihood, for each of some τ.
class TileSum {
 public:
    TileSum(const EveningModel& model, double h, std::span<const double> shrinks, const Tile& tile);
    [[nodiscard]] std::vector<double> run();

 private:
    /// Flight and effort as spline surfaces.
    struct Surfaces {
        TileCells flown;
        TileEffort effort;
    };
    struct OfEvening {
        std::uint32_t evening = 0;
        std::span<const std::uint32_t> stretches, spots;
        Surfaces own;
    };
    void lay_evenings();
    [[nodiscard]] TileCells flown_by(std::span<const std::uint32_t> stretches);
    void subtract(const Surfaces& own);
    void add_observations(const OfEvening& of);
    void add_expected(const OfEvening& of);

    const EveningModel& model_;
    std::span<const double> shrinks_;
    const Tile& tile_;
    EffortLayer effort_layer_;
    std::vector<std::vector<float>> flown_taps_;  ///< one a blur
    TileCells binned_;                            ///< with room for the taps
    std::vector<OfEvening> evenings_;
    Surfaces all_, others_;
    std::vector<float> scratch_;
    std::vector<double> sums_;
};

}  // namespace roostward::activity
