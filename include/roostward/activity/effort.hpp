#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "roostward/core/grid.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::activity {

/// Hours of effective watching: E_w(x) = hours · exp(−r²/2ρ²), half-normal and not truncated, within the watch's field
/// of view; for a walk, the mean over its path. Ē_w is the same smoothed by the kernels that smooth the flights.
class Effort {
 public:
    /// Smooths with the mixture of widths √(h² + 2·accuracy²) that the placed flights have, weighted by their metres.
    Effort(const survey::Survey& survey, core::Metres h);

    struct Row {
        double* flown;     ///< M_n, to which flights heard but not placed are added; may be null
        double* watched;   ///< E_n
        double* smoothed;  ///< Ē_n
    };
    /// Adds to one value an evening.
    void add_at(core::PlanePoint p, Row row) const;

    /// Adds the sums over all evenings, cell by cell, for one row of a grid; same members as above.
    void add_grid_row(const core::Grid& grid, std::size_t grid_row, Row row) const;

    /// ∫ Σ E_n over the plane: hours · m².
    [[nodiscard]] double integral() const { return integral_; }

    /// A box that holds all ground with Σ E_n ≥ `least`, perhaps with some to spare; empty where there is none.
    [[nodiscard]] std::optional<core::Box> box_watched(core::Hours least) const;

 private:
    struct Width {
        double h = 0.0;
        double share = 1.0;
    };
    /// One watch, or the even ground of one evening where there are no watches.
    struct View {
        std::uint32_t evening = 0;
        geo::Line path;
        double length = 0.0;  ///< of the path, m
        double hours = 0.0;
        double range = 0.0;                 ///< ρ
        double middle = 0.0, half = 4.0;    ///< sector as angles from east, counter-clockwise, radians; half > π: all round
        double unplaced_per_hour = 0.0;     ///< metres heard but not placed, per hour·m² of ∫E_w
        [[nodiscard]] bool all_round() const;
    };
    struct AtPoint {
        double watched, smoothed;
    };
    [[nodiscard]] AtPoint of_view(const View& view, core::PlanePoint p) const;
    [[nodiscard]] AtPoint of_ground(core::PlanePoint p) const;
    [[nodiscard]] double felt_within(const View& view) const;
    void add_round_row(const View& view, const core::Grid& grid, std::size_t grid_row, Row row) const;

    std::vector<Width> widths_;
    std::vector<View> views_;
    std::vector<geo::Polygon> even_ground_;
    std::size_t evenings_ = 0;
    double integral_ = 0.0;
};

}  // namespace roostward::activity
