#pragma once

#include <span>
#include <string>

#include "roostward/plan/evenings_plan.hpp"

namespace roostward::report {

/// Posts of a team that are drawn, each with its letter, joined in turn.
struct DrawnRound {
    const evenings::Round& round;
    std::string before_letter;  ///< what stands before each letter: "2" for 2A, 2B; may be empty
};

/// "A" for the first post of a round.
[[nodiscard]] std::string post_letter(std::size_t post);

/// A map in black and white, north of the grid up, as SVG: allowed area, water, roads, paths, ground to keep
/// out of, trees that could hold a box, the rounds and which way each post looks, a scale bar. `title` names
/// it for those who cannot see it. No wider and no higher than told, in mm.
[[nodiscard]] std::string sketch_map(const plan::EveningsPlan& plan, const core::Box& shown,
                                     std::span<const DrawnRound> rounds, std::string_view title,
                                     double most_width, double most_height);

/// The ground of a team's round and 60 m about it, 240 m at least from end to end.
[[nodiscard]] core::Box about_round(const plan::EveningsPlan& plan, const evenings::Round& round);

/// The ground of all: the allowed area, else all places and all trees that could hold a box.
[[nodiscard]] core::Box all_ground(const plan::EveningsPlan& plan);

}  // namespace roostward::report
