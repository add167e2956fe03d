#pragma once

#include <optional>
#include <string_view>

#include "roostward/activity/by_evenings.hpp"
#include "roostward/activity/settings.hpp"
#include "roostward/core/finding.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::activity {

enum class FoundBy { number, rule_of_thumb, usual, evenings, min_watch };
[[nodiscard]] std::string_view to_text(FoundBy found_by);

/// How far a flight's evidence spreads, and how strongly thinly watched places lean on the mean.
struct Bandwidth {
    core::Metres h;
    core::Hours shrink;  ///< τ
    FoundBy h_by = FoundBy::number;
    FoundBy shrink_by = FoundBy::number;
    std::optional<EveningSearch> search{};  ///< where any of the two was asked for by evenings
};

/// As the settings ask. What the evenings cannot tell is `usual_h` and `min_watch`; then `search` says why.
[[nodiscard]] Bandwidth choose_bandwidth(const survey::Survey& survey, const Settings& settings,
                                         core::Threads threads);

/// What people should know of it: an end of a range, or evenings that cannot tell.
[[nodiscard]] core::Findings doubts_of(const Bandwidth& bandwidth);

/// The rule of thumb for two dimensions h = σ n^(−1/6) (Silverman 1986, Density Estimation), σ² the mean of
/// the two coordinates' variances and n the number of placed flights, held in 5–20 m; 20 m for fewer than two
/// flights.
[[nodiscard]] core::Metres rule_of_thumb(const survey::Survey& survey);

}  // namespace roostward::activity
