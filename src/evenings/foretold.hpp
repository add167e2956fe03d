#pragma once

#include <span>
#include <vector>

#include "roostward/activity/effort.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::evenings {

/// Flight density, metres flown per m² and hour, at places that nobody watched, if passes round about had
/// gone on straight, ahead and behind: each fades by e⁻¹ in 100 m and spreads to the sides by 8 m and 0.15 of
/// the way (standard deviation), and stands for as many an hour as the effective watching at its place says.
/// Set on invented parks: common practice, no source.
[[nodiscard]] std::vector<double> foretold(const survey::Survey& flown, const activity::Effort& effort,
                                           std::span<const core::PlanePoint> places, core::Threads threads);

}  // namespace roostward::evenings
