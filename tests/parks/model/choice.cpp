#include "parks/model/choice.hpp"

#include <cstddef>

namespace roostward::parks {

std::vector<siting::Candidate> assess(const Park& park, activity::Bandwidth bandwidth,
                                      const siting::ChoiceSettings& choice) {
    trees::Inventory inventory;
    std::vector<trees::Verdict> verdicts;
    std::vector<core::PlanePoint> stems;
    for (const ParkTree& tree : park.trees) {
        stems.push_back(tree.stem);
        inventory.rows.emplace_back();
        inventory.rows.back().stem = tree.stem;
        verdicts.push_back({tree.suitable ? trees::State::can_be_chosen : trees::State::ruled_out, {}});
    }
    const survey::Matched matched = survey::match(park.passes, {}, park.watches, {}, {});
    const activity::Settings settings;
    const activity::FlightDensity density(matched.survey, bandwidth, settings);
    const auto activity = density.summarise(density.at(stems, core::Threads{1}));
    auto candidates = siting::candidates_of(std::move(verdicts), activity, settings.min_watch);
    siting::score_and_rank(candidates, inventory);
    siting::choose(candidates, inventory, choice);
    return candidates;
}

}  // namespace roostward::parks
