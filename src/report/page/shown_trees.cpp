#include "shown_trees.hpp"

#include <algorithm>

#include "coarse_ground.hpp"
#include "roostward/report/page.hpp"

namespace roostward::report {

namespace {

/// Tells quickly how far it is to the middle of the nearest watched cell.
class WatchedCells {
 public:
    explicit WatchedCells(const CoarseGround& ground)
        : grid_(ground.grid), west_(grid_.size(), none), east_(grid_.size(), none) {
        for (std::size_t row = 0; row < grid_.rows; ++row) {
            std::size_t last = none;
            for (std::size_t column = 0; column < grid_.columns; ++column) {
                const std::size_t i = grid_.index({row, column});
                if (ground.flight[i] != 0) last = column;
                west_[i] = last;
            }
            last = none;
            for (std::size_t column = grid_.columns; column-- > 0;) {
                const std::size_t i = grid_.index({row, column});
                if (ground.flight[i] != 0) last = column;
                east_[i] = last;
            }
        }
    }

    /// Looks at the rows in reach, and in each at the next watched cell to the west and to the east.
    [[nodiscard]] bool one_within(core::PlanePoint place, core::Metres reach) const {
        if (grid_.size() == 0) return false;
        const double cell = grid_.cell.value();
        const auto held = [](double value, std::size_t count) {
            return static_cast<std::size_t>(std::clamp(value, 0.0, static_cast<double>(count - 1)));
        };
        const double down = (grid_.north_west.northing - place.northing) / cell, rows = reach.value() / cell;
        const std::size_t column = held((place.easting - grid_.north_west.easting) / cell, grid_.columns);
        for (std::size_t row = held(down - rows, grid_.rows); row <= held(down + rows, grid_.rows); ++row)
            for (const std::size_t other :
                 {west_[grid_.index({row, column})], east_[grid_.index({row, column})]})
                if (other != none && core::distance(grid_.centre({row, other}), place) <= reach) return true;
        return false;
    }

 private:
    static constexpr std::size_t none = static_cast<std::size_t>(-1);
    core::Grid grid_;
    std::vector<std::size_t> west_,
        east_;  ///< the nearest watched column of the row, itself or farther that way
};

}  // namespace

core::Box mapped_ground(const plan::Plan& plan) {
    return core::widened(plan.surfaces.flight_density.grid.box(), shown_within);
}

ShownTrees::ShownTrees(const plan::Plan& plan) {
    constexpr std::size_t cells_enough = 20000;
    const WatchedCells watched(coarse_ground(plan, cells_enough));
    for (std::size_t tree = 0; tree < plan.trees.rows.size(); ++tree)
        // A tree in watched ground is shown whatever a coarse cell says of it.
        if (plan.candidates[tree].activity.watched ||
            watched.one_within(plan.trees.rows[tree].stem, shown_within))
            trees_.push_back(tree);
}

std::optional<std::size_t> ShownTrees::place_of(std::size_t tree) const {
    const auto found = std::ranges::lower_bound(trees_, tree);
    if (found == trees_.end() || *found != tree) return std::nullopt;
    return static_cast<std::size_t>(found - trees_.begin());
}

}  // namespace roostward::report
