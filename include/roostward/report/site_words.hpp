#pragma once

#include <optional>
#include <string>

#include "roostward/plan/plan.hpp"

/// The answer in a sentence or less.
namespace roostward::report {

/// Hours of watches, which the clock tells.
struct WatchedHours {
    core::Hours placed;  ///< by those who could say where an animal flew
    core::Hours heard;   ///< by recorders, and where nothing of what was noted has a place
};
[[nodiscard]] WatchedHours watched_hours(const survey::Survey& survey);

/// "What this rests on: three evenings within ten days of June, 12.6 hours of watching that places flights,
/// 5.2 hours of recorders that place none, 38 % of the park not watched."
[[nodiscard]] std::string caveat(const plan::Plan& plan);

/// Share of the allowed area, 0–1, where nobody watched long enough, from 10,000 places in it; empty where no
/// area is told.
[[nodiscard]] std::optional<double> share_not_watched(const plan::Plan& plan);

/// Whether a chosen tree would be chosen again: "Stays chosen in 27 of the 27 ways to re-draw three
/// evenings.". It says nothing of how sure a figure is.
[[nodiscard]] std::string sureness(const plan::Plan& plan, std::size_t tree);

[[nodiscard]] std::string hazard_in_words(trees::Hazard hazard);

/// "good condition"; "condition not told"
[[nodiscard]] std::string condition_in_words(const trees::Tree& tree);

/// "good condition; failure judged improbable on 2026-03-01"; "condition not told"
[[nodiscard]] std::string health(const trees::Tree& tree);

/// "SSE and ENE"
[[nodiscard]] std::string facings_in_words(const siting::Candidate& candidate);

}  // namespace roostward::report
