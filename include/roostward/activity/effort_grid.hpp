#pragma once

#include <vector>

#include "roostward/activity/effort.hpp"
#include "roostward/core/grid.hpp"

namespace roostward::activity {

/// Effort at the cell centres of a grid, summed over all evenings. Within 1e-7 of a view's hours. All-round
/// views are a product of a factor a column and a factor a row.
class EffortGrid {
 public:
    /// Refers to `effort`, which must outlive it.
    EffortGrid(const Effort& effort, const core::Grid& grid);

    /// Adds to one value a column of this row: metres heard but not placed; Σ E_n; Σ Ē_n.
    void add_row(std::size_t grid_row, double* flown, double* watched, double* smoothed) const;

 private:
    /// What one view adds to one sum: weight · e^(−dy²/2v) · e^(−dx²/2v).
    struct Bell {
        double northing = 0.0;
        double variance = 1.0;
        double watched = 0.0, smoothed = 0.0, flown = 0.0;  ///< weight in each sum
        double reach = 0.0;
        std::size_t first = 0;        ///< column of the first factor
        std::vector<double> columns;  ///< e^(−dx²/2v)
    };
    void add_bell(const Effort::View& view, double variance, Bell bell);

    const Effort& effort_;
    core::Grid grid_;
    std::vector<Bell> bells_;
    std::vector<const Effort::View*> others_;  ///< walks and fields of view
};

}  // namespace roostward::activity
