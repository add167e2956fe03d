#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "roostward/activity/evening_draws.hpp"
#include "roostward/activity/flight_density.hpp"

namespace roostward::activity {

/// Re-draws of a survey's evenings side by side, so that sums over evenings are made for several at once.
class Redraws {
 public:
    Redraws(const FlightDensity& density, std::span<const EveningDraw> draws);

    [[nodiscard]] std::size_t size() const { return mean_rates_.size(); }
    [[nodiscard]] double weight(std::size_t draw) const { return weights_[draw]; }
    /// λ̄ of a re-draw.
    [[nodiscard]] double mean_rate(std::size_t draw) const { return mean_rates_[draw]; }

 private:
    friend class RedrawnPoint;

    core::Hours min_watch_, shrink_;
    std::size_t evenings_;
    std::vector<double> mean_rates_, weights_;
    std::vector<double> times_;  ///< lane by lane of a block of draws, evening by evening, block by block
};

/// One point as it would have been seen in every re-draw. Refers to the re-draws.
class RedrawnPoint {
 public:
    explicit RedrawnPoint(const Redraws& redraws);

    /// Looks at a point of a table of all evenings.
    void look_at(const EveningTable& table, std::size_t point);
    /// In the same bits as FlightDensity::summarise gives it; so are the rates.
    [[nodiscard]] PointActivity in(std::size_t draw) const;
    /// λ in every re-draw, which leans on the mean for `shrink`.
    void rates(core::Hours shrink, std::span<double> rates) const;
    [[nodiscard]] std::span<const double> evenings_watched() const { return evenings_watched_; }
    [[nodiscard]] std::span<const double> evenings_used() const { return evenings_used_; }

 private:
    const Redraws& redraws_;
    std::vector<double> flown_, smoothed_, watched_, evenings_watched_, evenings_used_;
};

}  // namespace roostward::activity
