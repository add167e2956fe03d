#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "roostward/activity/flight_density.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/siting/candidates.hpp"
#include "roostward/siting/settings.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::siting {

enum class Source { evening, station, observer };

/// One evening, place or person, and what would be chosen without it.
struct Influence {
    Source source = Source::evening;
    std::string name;                     ///< the evening's date, a watch from the place, the observer
    double share = 0.0;                   ///< of all metres flown and seen
    std::vector<std::size_t> sites_lost;  ///< numbers of the sites that would not be chosen, ascending
};

/// What would be chosen with another bandwidth.
struct OtherBandwidth {
    core::Metres h;
    std::vector<std::size_t> sites_lost;  ///< as for an influence
};

/// How far the choice hangs on this data and these settings.
struct Certainty {
    std::size_t evenings = 0;
    std::size_t redraws = 0;  ///< of the evenings
    /// Of the evenings, of the stations and of the observers, where there are two or more of them: the one
    /// without which most sites fall out; of equals the one that saw most.
    std::vector<Influence> strongest;
    std::vector<OtherBandwidth> other_bandwidths;  ///< half and twice
};

/// The data that a choice was made from.
struct Evidenced {
    const trees::Inventory& inventory;
    const survey::Survey& survey;
    const activity::FlightDensity& density;
    const activity::EveningTable& at_trees;
};

/// Re-draws the evenings (see give_ranges), leaves out evenings, stations and observers one by one, and tries
/// half and twice the bandwidth. The best 2,000 trees with half the flight that is enough evidence take part
/// in the two latter. Gives the candidates their ranges.
[[nodiscard]] Certainty how_sure(std::vector<Candidate>& candidates, const Evidenced& data,
                                 const Settings& settings, core::Threads threads);

}  // namespace roostward::siting
