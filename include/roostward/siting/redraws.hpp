#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "roostward/activity/evening_draws.hpp"
#include "roostward/activity/flight_density.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/siting/candidates.hpp"

namespace roostward::siting {

/// The choice among some trees as it would be on other data. λ_ref, the bandwidth, the shrink and the fitness
/// of the places stay as they are.
class Rechoice {
 public:
    /// Row k of `table` belongs to `trees[k]`; `reference` is λ_ref. Refers to the candidates, the inventory,
    /// the density and the settings.
    Rechoice(std::span<const Candidate> candidates, const trees::Inventory& inventory,
             const activity::FlightDensity& density, const ChoiceSettings& settings, double reference,
             std::vector<std::size_t> trees, activity::EveningTable table);

    /// Each evening counts as often as `times` says. Tree indices, site 1 first.
    [[nodiscard]] std::vector<std::size_t> with(std::span<const std::uint16_t> times) const;
    /// What was seen from some of the watches never was.
    [[nodiscard]] std::vector<std::size_t> without(const activity::FlightDensity& part,
                                                   core::Threads threads) const;

 private:
    [[nodiscard]] std::vector<std::size_t> chosen_by(const activity::EveningTable& table,
                                                     std::span<const std::uint16_t> times,
                                                     double mean_rate) const;

    std::span<const Candidate> candidates_;
    const trees::Inventory& inventory_;
    const activity::FlightDensity& density_;
    const ChoiceSettings& settings_;
    double reference_;
    std::vector<std::size_t> trees_;
    activity::EveningTable table_;
};

/// Where some trees stand.
[[nodiscard]] std::vector<core::PlanePoint> stems_of(const trees::Inventory& inventory,
                                                     std::span<const std::size_t> trees);

/// Gives the trees that can be chosen or must be settled first the ranges of their scores, and those that can
/// be chosen the share of re-draws that choose them.
void give_ranges(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                 const activity::FlightDensity& density, const activity::EveningTable& table,
                 std::span<const activity::EveningDraw> draws, const ChoiceSettings& settings,
                 core::Threads threads);

}  // namespace roostward::siting
