#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "roostward/activity/bandwidth.hpp"
#include "roostward/activity/effort.hpp"
#include "roostward/activity/evening_table.hpp"
#include "roostward/activity/pieces.hpp"
#include "roostward/activity/settings.hpp"
#include "roostward/core/grid.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::activity {

/// Flight at one point over all evenings.
struct PointActivity {
    double flight_density = 0.0;  ///< metres flown per m² and hour
    double flown = 0.0;           ///< Σ M_n, metres per m²
    core::Hours smoothed;         ///< Σ Ē_n
    core::Hours watch_hours;
    std::uint32_t evenings_watched = 0;  ///< with enough_on_an_evening (inclusive)
    std::uint32_t evenings_used = 0;     ///< of those, with a flight close by
    bool watched = false;                ///< watch_hours >= min_watch
};

/// See FlightDensity::where_watched.
struct WatchedPoints {
    std::vector<PointActivity> activity;  ///< one a point
    EveningTable evenings;                ///< of those whose flight was worked out
};

struct Surfaces {
    core::Raster flight_density;  ///< metres flown per hectare and hour; unknown where not watched
    core::Raster watch_hours;     ///< hours of effective watching; unknown where it is below 0.01
};

/// Flight density with effort: λ(x) = (Σ M_n + τ λ̄) / (Σ Ē_n + τ). Sums run in a fixed order: the same bits
/// for any number of threads. Holds references to nothing.
class FlightDensity {
 public:
    FlightDensity(const survey::Survey& survey, const Bandwidth& bandwidth, const Settings& settings);

    /// A part of a survey (see `part_of`), smoothed like the whole.
    FlightDensity(const survey::Survey& part, const FlightDensity& whole);

    /// λ̄: metres flown and seen per m² and hour of effective watching, over the whole survey.
    [[nodiscard]] double mean_rate() const { return mean_rate_; }
    /// λ̄ where each evening counts so many times.
    [[nodiscard]] double mean_rate(std::span<const std::uint16_t> times) const;
    /// λ̄ of the rest once a part is taken away.
    [[nodiscard]] double mean_rate_without(const FlightDensity& part) const;
    [[nodiscard]] const std::vector<double>& metres_flown() const {
        return metres_;
    }  ///< one value an evening
    /// (flown + τ λ̄) / (smoothed + τ). Without a branch, so that loops over it become vector instructions.
    [[nodiscard]] static double rate(double flown, core::Hours smoothed, double mean_rate,
                                     core::Hours shrink) {
        const double hours = smoothed.value() + shrink.value();
        const double rate = (flown + shrink.value() * mean_rate) / hours;
        return hours > 0.0 ? rate : 0.0;
    }
    [[nodiscard]] const Bandwidth& bandwidth() const { return bandwidth_; }
    [[nodiscard]] core::Hours min_watch() const { return settings_.min_watch; }

    /// Exact at each point: within 1e-9 of the largest value of the direct sum.
    [[nodiscard]] EveningTable at(std::span<const core::PlanePoint> points, core::Threads threads) const;
    /// Flight where it is `asked` for and a point was watched for `min_watch` in all, or for half of it on
    /// some evening; of the others only the watching, as if no flight were placed. One mark a point.
    [[nodiscard]] WatchedPoints where_watched(std::span<const core::PlanePoint> points,
                                              const std::vector<bool>& asked, core::Threads threads) const;
    [[nodiscard]] std::vector<PointActivity> summarise(const EveningTable& table) const;
    /// The same where more or less watching is enough to say anything.
    [[nodiscard]] std::vector<PointActivity> summarise(const EveningTable& table,
                                                       core::Hours min_watch) const;
    /// One point where each evening counts so many times and the mean rate is `mean_rate`.
    [[nodiscard]] PointActivity summarise(const EveningTable& table, std::size_t point,
                                          std::span<const std::uint16_t> times, double mean_rate) const;

    /// On the grid that covers the watched ground (Σ E_n ≥ 0.01 h) widened by 4h. Within 3e-5 of the peak.
    /// Throws Error{inputs} above 2·10⁸ cells, with a cell size that would do.
    [[nodiscard]] Surfaces surfaces(core::Threads threads) const;

 private:
    [[nodiscard]] PointActivity summarise(const EveningTable& table, std::size_t point,
                                          std::span<const std::uint16_t> times, double mean_rate,
                                          core::Hours min_watch) const;
    [[nodiscard]] std::vector<PointActivity> watching_at(std::span<const core::PlanePoint> points,
                                                         core::Threads threads) const;
    [[nodiscard]] core::Grid grid() const;

    Settings settings_;
    Bandwidth bandwidth_;
    std::size_t evenings_;
    Effort effort_;
    std::vector<Piece> pieces_;
    std::vector<double> metres_;
    double mean_rate_ = 0.0;
};

}  // namespace roostward::activity
