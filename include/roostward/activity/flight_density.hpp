#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "roostward/activity/effort.hpp"
#include "roostward/activity/pieces.hpp"
#include "roostward/activity/settings.hpp"
#include "roostward/core/grid.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::activity {

struct Bandwidth {
    core::Metres h;
    core::Hours shrink;  ///< τ
    bool by_rule_of_thumb = false;
};

/// The settings' numbers, else the rule of thumb for two dimensions h = σ n^(−1/6) (Silverman 1986), σ² the
/// mean of the two coordinates' variances and n the number of flights, held in 5–20 m.
[[nodiscard]] Bandwidth choose_bandwidth(const survey::Survey& survey, const Settings& settings);

/// What each point saw, evening by evening: row = point, column = evening.
struct EveningTable {
    std::size_t points = 0;
    std::size_t evenings = 0;
    std::vector<double> flown;       ///< M_n, metres flown and seen per m²
    std::vector<double> watched;     ///< E_n, hours of effective watching
    std::vector<double> smoothed;    ///< Ē_n, the same smoothed like M_n, hours
    std::vector<std::uint8_t> used;  ///< a flight passed within max(2h, 10 m)

    [[nodiscard]] std::size_t at(std::size_t point, std::size_t evening) const {
        return point * evenings + evening;
    }
};

/// Flight at one point over all evenings.
struct PointActivity {
    double flight_density = 0.0;  ///< metres flown per m² and hour
    core::Hours watch_hours;
    std::uint32_t evenings_watched = 0;  ///< with at least half of min_watch (inclusive)
    std::uint32_t evenings_used = 0;     ///< of those, with a flight close by
    bool watched = false;                ///< watch_hours >= min_watch
};

struct Surfaces {
    core::Raster flight_density;  ///< metres flown per hectare and hour; unknown where not watched
    core::Raster watch_hours;     ///< hours of effective watching; unknown where it is below 0.01
};

/// Flight density with effort: λ(x) = (Σ M_n + τ λ̄) / (Σ Ē_n + τ). Sums run in a fixed order: the same bits
/// for any number of threads. Holds references to nothing.
class FlightDensity {
 public:
    FlightDensity(const survey::Survey& survey, Bandwidth bandwidth, const Settings& settings);

    /// λ̄: metres flown and seen per m² and hour of effective watching, over the whole survey.
    [[nodiscard]] double mean_rate() const { return mean_rate_; }
    [[nodiscard]] const Bandwidth& bandwidth() const { return bandwidth_; }

    /// Exact at each point: within 1e-9 of the largest value of the direct sum.
    [[nodiscard]] EveningTable at(std::span<const core::PlanePoint> points, core::Threads threads) const;
    [[nodiscard]] std::vector<PointActivity> summarise(const EveningTable& table) const;

    /// On the grid that covers the watched ground (Σ E_n ≥ 0.01 h) widened by 4h. Within 3e-5 of the peak.
    /// Throws Error{inputs} above 2·10⁸ cells, with a cell size that would do.
    [[nodiscard]] Surfaces surfaces(core::Threads threads) const;

 private:
    [[nodiscard]] double rate(double flown, double smoothed) const;
    [[nodiscard]] core::Grid grid() const;

    Settings settings_;
    Bandwidth bandwidth_;
    std::size_t evenings_;
    Effort effort_;
    std::vector<Piece> pieces_;
    double mean_rate_ = 0.0;
};

}  // namespace roostward::activity
