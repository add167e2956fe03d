#include "parks/model/choice.hpp"

#include <cstddef>
#include <utility>

#include "parks/model/share.hpp"
#include "roostward/activity/bent_flights.hpp"
#include "roostward/activity/evening_draws.hpp"
#include "roostward/siting/choice.hpp"
#include "roostward/siting/flight_figures.hpp"
#include "roostward/siting/redraws.hpp"

namespace roostward::parks {

survey::Survey noted_in(const Park& park) {
    return survey::match({park.passes, {}, {}, park.watches, {}}, {}, {}).survey;
}

survey::Survey survey_of(const Park& park) {
    return activity::bend_flights(noted_in(park), core::Threads{1});
}

siting::ChoiceSettings park_choice() {
    siting::ChoiceSettings choice;
    choice.sites = sites;
    choice.spacing = core::Metres(site_spacing);
    return choice;
}

std::vector<siting::Candidate> assess(const Park& park, activity::Bandwidth bandwidth,
                                      const siting::ChoiceSettings& choice, Ranges ranges) {
    return assess(park, survey_of(park), std::move(bandwidth), choice, ranges);
}

std::vector<siting::Candidate> assess(const Park& park, const survey::Survey& survey,
                                      activity::Bandwidth bandwidth, const siting::ChoiceSettings& choice,
                                      Ranges ranges) {
    trees::Inventory inventory;
    std::vector<trees::Verdict> verdicts;
    std::vector<core::PlanePoint> stems;
    for (const ParkTree& tree : park.trees) {
        stems.push_back(tree.stem);
        inventory.rows.emplace_back();
        inventory.rows.back().stem = tree.stem;
        verdicts.push_back(
            {tree.suitable ? trees::State::can_be_chosen : trees::State::ruled_out, {}, {}, {}});
    }
    const activity::Settings settings;
    const activity::FlightDensity density(survey, bandwidth, settings);
    const auto table = density.at(stems, core::Threads{1});
    auto candidates =
        siting::candidates_of(std::move(verdicts), density.summarise(table), settings.min_watch, {1});
    siting::score_and_rank(candidates, inventory);
    siting::choose(candidates, inventory, choice);
    if (ranges == Ranges::no) return candidates;
    siting::Settings figures;
    figures.activity = settings;
    siting::give_flight_figures(candidates, inventory, survey, figures, core::Threads{1});
    siting::give_ranges(candidates, inventory, density, table,
                        activity::draw_evenings(survey.evenings.size(), settings.seed, 200), choice,
                        core::Threads{1});
    return candidates;
}

}  // namespace roostward::parks
