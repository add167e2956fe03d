#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "roostward/core/grid.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::activity {

/// Hours of effective watching: E_w(x) = hours · exp(−r²/2ρ²), half-normal and not truncated, within the
/// watch's field of view; for a walk, the mean over its path. Ē_w is the same smoothed by the kernels that
/// smooth the flights.
class Effort {
 public:
    /// Smooths with the mixture of widths √(h² + 2·accuracy²) that the placed flights have, weighted by their
    /// metres.
    Effort(const survey::Survey& survey, core::Metres h);
    /// A part of a survey, smoothed like the whole.
    Effort(const survey::Survey& part, const Effort& whole);

    /// Adds to one value an evening: M_n, to which flights heard but not placed are added; E_n; Ē_n.
    void add_at(core::PlanePoint p, double* flown, double* watched, double* smoothed) const;

    /// The smoothing widths and their shares, which sum to 1.
    struct Width {
        double h = 0.0;
        double share = 1.0;
    };
    /// One watch at a place: when, for how long, and the metres heard but not placed, per hour·m² of ∫E_w.
    struct Sitting {
        std::uint32_t evening = 0;
        double hours = 0.0;
        double unplaced_per_hour = 0.0;
    };
    /// Watches from the same place with the same view differ in hours only.
    struct View {
        geo::Line path;
        double length = 1.0;       ///< of the path, m; 1 for a single point
        double range = 0.0;        ///< ρ
        double spread = 0.0;       ///< √(ρ² + h²) with the widest h
        double half_course = 0.0;  ///< half of the piece that its passes are laid over, mean, m
        double middle = 0.0,
               half = 4.0;  ///< sector as angles from east, counter-clockwise, radians; half > π: all round
        std::vector<Sitting> sittings;
        [[nodiscard]] bool all_round() const;
        [[nodiscard]] bool is_walk() const { return path.size() > 1; }
        /// Farther than this from a station its effort, smoothed or not, is under e^(−reach²/2) of its hours.
        [[nodiscard]] double felt_within(double reach) const { return reach * spread; }
    };
    /// A course without a sense, as a unit vector.
    struct Axis {
        double east = 1.0, north = 0.0;
    };
    /// Effective watching per hour, the mean along a straight course through p: over half a piece of the
    /// view's passes and `reach` more, each way. Without an axis the mean over four. A walk is told at p
    /// alone.
    [[nodiscard]] double along_course(const View& view, core::PlanePoint p, const std::optional<Axis>& axis,
                                      core::Metres reach) const;
    /// The views from which p is seen at all.
    template <class Do>
    void for_each_view_near(core::PlanePoint p, const Do& act) const {
        for (const auto& view : views_)
            if (view.is_walk() || may_be_seen(view, p)) act(view);
    }
    /// Effective watching per hour watched.
    struct PerHour {
        double watched = 0.0, smoothed = 0.0;
    };
    [[nodiscard]] PerHour of_view(const View& view, core::PlanePoint p) const;
    [[nodiscard]] PerHour of_even_ground(core::PlanePoint p) const;

    [[nodiscard]] const std::vector<View>& views() const { return views_; }
    [[nodiscard]] const std::vector<Width>& widths() const { return widths_; }
    [[nodiscard]] std::size_t evenings() const { return evenings_; }

    /// ∫ E_n over the plane, one value an evening: hours · m².
    [[nodiscard]] const std::vector<double>& integrals() const { return integrals_; }

    /// A box that holds all ground with Σ E_n ≥ `least`, perhaps with some to spare; empty where there is
    /// none.
    [[nodiscard]] std::optional<core::Box> box_watched(core::Hours least) const;

 private:
    [[nodiscard]] static bool may_be_seen(const View& view, core::PlanePoint p);
    void lay_widths(const survey::Survey& survey, core::Metres h);
    void lay_views(const survey::Survey& survey);
    void lay_courses(const survey::Survey& survey, const std::vector<std::size_t>& view_of_watch);

    std::vector<Width> widths_;
    std::vector<View> views_;
    std::vector<geo::Polygon> even_ground_;
    std::size_t evenings_ = 0;
    std::vector<double> integrals_;
};

}  // namespace roostward::activity
