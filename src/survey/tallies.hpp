#pragma once

#include <optional>
#include <vector>

#include "roostward/survey/survey.hpp"

namespace roostward::survey {

/// How well a line on a sketch shows where animals fly: standard deviation. Common practice, no source.
inline constexpr core::Metres drawn_to{10.0};

/// What a straight, long flight past a half-normal view of this scale has in effective view, for each chance
/// to notice it: ∫ e^(−s²/2ρ²) ds = √(2π)·ρ.
[[nodiscard]] core::Metres metres_in_view(core::Metres range);

/// Metres of flight for each chance to notice it, where flights are `flight_length` long and may begin and
/// end in view: of ℓ metres in view of an endless line, 1/(1/ℓ + 1/L). Noticed are those that pass the
/// nearest place, and those that end before it: ℓ/L more.
[[nodiscard]] core::Metres metres_flown_in_view(core::Metres in_view, core::Metres flight_length);

/// One flight along the line, noticed from the watch, in pieces: `count` of each is its share of the metres,
/// `length` the metres of the line in effective view for each chance to notice a flight along it. Empty where
/// the line does not come within three ranges of the watch and into its view.
[[nodiscard]] std::vector<Flight> laid_along(const geo::Line& line, const Watch& watch);

/// The watch that a gate is: at its middle, for as long as `counted` of it.
[[nodiscard]] Watch at_gate(const geo::Line& gate, const Watch& watch);
/// Straight through the gate's middle, three ranges of its watch to each side.
[[nodiscard]] geo::Line way_through(const geo::Line& gate, const Watch& gate_watch);

}  // namespace roostward::survey
