#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "roostward/activity/evening_draws.hpp"
#include "roostward/activity/flight_density.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/siting/candidates.hpp"

namespace roostward::siting {

/// The choice as it would be on other data. λ_ref, the bandwidth and the shrink stay as they are.
class Rechoice {
 public:
    /// Of these trees alone: row k of `table` belongs to `trees[k]`. Refers to all but the trees and the
    /// table.
    Rechoice(std::span<const Candidate> candidates, const trees::Inventory& inventory,
             const activity::FlightDensity& density, const ChoiceSettings& settings,
             std::vector<std::size_t> trees, activity::EveningTable table);

    /// Each evening counts as often as `times` says. Tree indices, site 1 first.
    [[nodiscard]] std::vector<std::size_t> with(std::span<const std::uint16_t> times, double mean_rate) const;
    /// The same data without those behind `part`, whose rows belong to the same trees; `mean_rate` is that of
    /// the rest.
    [[nodiscard]] std::vector<std::size_t> without(const activity::EveningTable& part,
                                                   double mean_rate) const;

    [[nodiscard]] std::vector<core::PlanePoint> stems() const;

 private:
    [[nodiscard]] std::vector<std::size_t> chosen_by(const activity::EveningTable& table,
                                                     std::span<const std::uint16_t> times,
                                                     double mean_rate) const;

    const trees::Inventory& inventory_;
    const activity::FlightDensity& density_;
    const ChoiceSettings& settings_;
    double reference_;
    std::vector<std::size_t> trees_;
    activity::EveningTable table_;
};

/// Gives the trees that can be chosen or must be settled first the ranges of their flight density and score,
/// and those that can be chosen the share of re-draws that choose them.
void give_ranges(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                 const activity::FlightDensity& density, const activity::EveningTable& table,
                 std::span<const activity::EveningDraw> draws, const ChoiceSettings& settings,
                 core::Threads threads);

}  // namespace roostward::siting
