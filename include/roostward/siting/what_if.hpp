#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "roostward/activity/flight_lines.hpp"
#include "roostward/core/document.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/siting/candidates.hpp"
#include "roostward/siting/certainty.hpp"
#include "roostward/siting/settings.hpp"
#include "roostward/siting/ways_in.hpp"
#include "roostward/trees/suitability.hpp"

namespace roostward::siting {

/// What might be otherwise.
enum class Change { weight, rule, spacing, bandwidth, evening, station, observer };

/// One thing that might be otherwise, and what would be chosen then.
struct WhatIf {
    Change change = Change::weight;
    /// A setting's key ("weights.dark", "avoid[0].within_m"), or what is left out: the evening's date, a
    /// watch from the place, the observer.
    std::string subject;
    core::Document from, to;          ///< values of the setting; null for what is left out
    std::optional<double> share;      ///< of all metres flown and seen, for what is left out
    std::vector<std::size_t> lost;    ///< numbers of the sites that fall out, ascending
    std::vector<std::size_t> came{};  ///< trees that come in: for each site lost the nearest, then the others

    [[nodiscard]] bool changes_nothing() const { return lost.empty() && came.empty(); }
};

struct WhatIfTable {
    std::vector<WhatIf> lines;
    /// Trees that took part, and those left out to save time. Of trees that can be chosen the best 2,000 take
    /// part; of those against which there is one reason, which another limit may take away, the 2,000 with
    /// most flight, and as many of those hardly watched.
    std::size_t took_part = 0, left_out = 0;
    /// Whether the short search that makes the lines finds the plan's own set; else a line may name sites
    /// that would stay.
    bool finds_the_plan = true;
};

/// How trees are judged and measured, to do it again.
struct Judged {
    const trees::Judge& judge;
    const trees::Surroundings& around;
    const Hanging& hanging;
    std::span<const activity::FlightLine> flight_lines;
};

/// What would be chosen if
/// - a weight (the place's share, and each part of it that takes part) counted twice, half or not at all;
/// - a rule with a number were a step stricter or looser, trees that come in by it measured like the others.
///   Limits that only part trees to settle first from those ruled out change no choice, and have no line;
///   nor have rules whose layer or column is not given;
/// - sites stood 10 m closer or farther apart;
/// - flights were spread half or twice as far (λ_ref is made anew);
/// - an evening, a station or an observer had never been, where there are two or more (λ_ref stays).
/// Weights, rules and spacing do what a plan with the other setting does, but for `min_watch_hours`, where
/// bandwidth, shrink and flight lines stay. No lines where nothing is chosen.
[[nodiscard]] WhatIfTable what_if(std::span<const Candidate> candidates, const Evidenced& data,
                                  const Judged& judged, const Settings& settings, core::Threads threads);

/// The line of this kind by which most sites fall out; of equals the one with the larger share, then the
/// first. Null where there is none.
[[nodiscard]] const WhatIf* strongest(const WhatIfTable& table, Change change);

}  // namespace roostward::siting
