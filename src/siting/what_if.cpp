#include "roostward/siting/what_if.hpp"

#include <algorithm>
#include <utility>

#include "what_if_parts.hpp"

namespace roostward::siting {

namespace {

void append(std::vector<Trial>& trials, std::vector<Trial> more) {
    trials.insert(trials.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

}  // namespace

void tell_changes(WhatIf& line, std::span<const Candidate> candidates, const trees::Inventory& inventory,
                  const std::vector<std::size_t>& chosen) {
    std::vector<std::size_t> came;
    for (const std::size_t tree : chosen)
        if (!candidates[tree].site) came.push_back(tree);
    for (const std::size_t tree : in_order_of_site(candidates)) {
        if (std::ranges::find(chosen, tree) != chosen.end()) continue;
        line.lost.push_back(*candidates[tree].site);
        const auto nearest = std::ranges::min_element(came, {}, [&](std::size_t other) {
            return core::distance(inventory.rows[tree].stem, inventory.rows[other].stem);
        });
        if (nearest == came.end()) continue;
        line.came.push_back(*nearest);
        came.erase(nearest);
    }
    line.came.insert(line.came.end(), came.begin(), came.end());
}

WhatIfTable what_if(std::span<const Candidate> candidates, const Evidenced& data, const Judged& judged,
                    const Settings& settings, core::Threads threads) {
    if (in_order_of_site(candidates).empty()) return {};
    const Varied as_planned{settings.weights, settings.choice, judged.judge.limits(),
                            settings.activity.min_watch};
    std::vector<Trial> trials = weight_trials(candidates, as_planned);
    append(trials, rule_trials(data, judged.around, as_planned));
    append(trials, spacing_trials(as_planned));
    WhatIfTable table = chosen_for(std::move(trials), candidates, data, judged, settings, threads);
    for (WhatIf& line : other_data(candidates, data, settings, threads))
        table.lines.push_back(std::move(line));
    return table;
}

const WhatIf* strongest(const WhatIfTable& table, Change change) {
    const WhatIf* best = nullptr;
    for (const WhatIf& line : table.lines) {
        if (line.change != change) continue;
        const auto force = [](const WhatIf& of) { return std::pair(of.lost.size(), of.share.value_or(0.0)); };
        if (best == nullptr || force(line) > force(*best)) best = &line;
    }
    return best;
}

}  // namespace roostward::siting
