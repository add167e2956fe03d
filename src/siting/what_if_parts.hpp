#pragma once

#include <span>
#include <string>
#include <utility>
#include <vector>

#include "roostward/siting/what_if.hpp"

namespace roostward::siting {

/// What a line may set otherwise.
struct Varied {
    Weights weights;
    ChoiceSettings choice;
    trees::Limits limits;
    core::Hours min_watch;
};

/// A line whose choice is still to be made.
struct Trial {
    WhatIf line;
    Varied varied;
};

[[nodiscard]] inline Trial trial_of(Change change, std::string key, core::Document from, core::Document to,
                                    Varied varied) {
    return {{change, std::move(key), std::move(from), std::move(to), {}, {}}, std::move(varied)};
}

/// Weights twice, half and not at all. `as_planned` as in every trial: what is not varied.
[[nodiscard]] std::vector<Trial> weight_trials(std::span<const Candidate> candidates,
                                               const Varied& as_planned);
[[nodiscard]] std::vector<Trial> spacing_trials(const Varied& as_planned);
/// Every rule that has something to go by, a step looser and a step stricter.
[[nodiscard]] std::vector<Trial> rule_trials(const Evidenced& data, const trees::Surroundings& around,
                                             const Varied& as_planned);

/// Tells a line what is lost and who comes where these trees are chosen.
void tell_changes(WhatIf& line, std::span<const Candidate> candidates, const trees::Inventory& inventory,
                  const std::vector<std::size_t>& chosen);

/// Chooses for each trial, in the same order.
[[nodiscard]] WhatIfTable chosen_for(std::vector<Trial> trials, std::span<const Candidate> candidates,
                                     const Evidenced& data, const Judged& judged, const Settings& settings,
                                     core::Threads threads);

/// Half and twice the bandwidth; evenings, stations and observers left out one by one.
[[nodiscard]] std::vector<WhatIf> other_data(std::span<const Candidate> candidates, const Evidenced& data,
                                             const Settings& settings, core::Threads threads);

}  // namespace roostward::siting
