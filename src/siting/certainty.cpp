#include "roostward/siting/certainty.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <utility>

#include "evidence.hpp"
#include "roostward/siting/redraws.hpp"

namespace roostward::siting {

namespace {

constexpr std::size_t most_random_draws = 200;
constexpr std::size_t most_in_contention = 2000;

/// Trees that could come into the choice if the data were a little different, best first.
std::vector<std::size_t> in_contention(std::span<const Candidate> candidates) {
    const double least = 0.5 * enough_flight(reference_density(candidates));
    std::vector<std::size_t> trees;
    for (const std::size_t tree : in_order_of_rank(candidates)) {
        const Candidate& candidate = candidates[tree];
        const bool near_enough =
            trees.size() < most_in_contention && candidate.activity.flight_density >= least;
        if (near_enough || candidate.wish == Wish::must) trees.push_back(tree);
    }
    return trees;
}

std::vector<std::size_t> sites_lost(std::span<const Candidate> candidates,
                                    const std::vector<std::size_t>& chosen_now) {
    std::vector<std::size_t> lost;
    for (const std::size_t tree : in_order_of_site(candidates))
        if (std::ranges::find(chosen_now, tree) == chosen_now.end()) lost.push_back(*candidates[tree].site);
    return lost;
}

double sum_of(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
}

/// The stronger of equals has the larger share, then came first.
const Influence& strongest(const std::vector<Influence>& all) {
    return *std::ranges::max_element(all, [](const Influence& a, const Influence& b) {
        return std::pair(a.sites_lost.size(), a.share) < std::pair(b.sites_lost.size(), b.share);
    });
}

/// Watches that belong together, by name of what they share.
using Parts = std::map<std::string, std::vector<std::uint32_t>>;

Parts by_observer(const survey::Survey& survey) {
    Parts parts;
    for (std::uint32_t w = 0; w < survey.watches.size(); ++w)
        if (!survey.watches[w].observer.empty()) parts[survey.watches[w].observer].push_back(w);
    return parts;
}

/// A station is named after the first watch from there.
Parts by_station(const survey::Survey& survey) {
    std::vector<std::pair<const geo::Line*, std::string>> stations;
    Parts parts;
    for (std::uint32_t w = 0; w < survey.watches.size(); ++w) {
        const survey::Watch& watch = survey.watches[w];
        auto known = std::ranges::find_if(stations, [&](const auto& s) { return *s.first == watch.path; });
        if (known == stations.end()) known = stations.insert(stations.end(), {&watch.path, watch.name});
        parts[known->second].push_back(w);
    }
    return parts;
}

/// Chooses again among the trees in contention, and tells which sites fall out.
class Trials {
 public:
    Trials(std::span<const Candidate> candidates, const Evidenced& data, const Settings& settings,
           core::Threads threads)
        : candidates_(candidates),
          data_(data),
          settings_(settings),
          threads_(threads),
          trees_(in_contention(candidates)),
          choice_(candidates, data.inventory, data.density, settings.choice, reference_density(candidates),
                  trees_, activity::rows_of(data.at_trees, trees_)),
          metres_(sum_of(data.density.metres_flown())) {}

    [[nodiscard]] std::vector<Influence> without_evenings() const {
        const std::vector<core::Evening>& evenings = data_.survey.evenings;
        std::vector<Influence> all;
        for (std::size_t n = 0; n < evenings.size(); ++n) {
            std::vector<std::uint16_t> times = activity::each_once(evenings.size());
            times[n] = 0;
            all.push_back({Source::evening, core::to_text(evenings[n]),
                           data_.density.metres_flown()[n] / metres_,
                           sites_lost(candidates_, choice_.with(times))});
        }
        return all;
    }

    [[nodiscard]] std::vector<Influence> without_parts(Source source, const Parts& parts) const {
        std::vector<Influence> all;
        for (const auto& [name, watches] : parts) {
            const activity::FlightDensity part(survey::part_of(data_.survey, watches), data_.density);
            all.push_back({source, name, sum_of(part.metres_flown()) / metres_,
                           sites_lost(candidates_, choice_.without(part, threads_))});
        }
        return all;
    }

    /// All is made anew, λ_ref too.
    [[nodiscard]] OtherBandwidth at(core::Metres h) const {
        activity::Bandwidth other = data_.density.bandwidth();
        other.h = h;
        const activity::FlightDensity density(data_.survey, other, settings_.activity);
        activity::EveningTable table = density.at(stems_of(data_.inventory, trees_), threads_);
        double reference = 0.0;
        for (const auto& tree : density.summarise(table))
            reference = std::max(reference, tree.flight_density);
        const Rechoice choice(candidates_, data_.inventory, density, settings_.choice, reference, trees_,
                              std::move(table));
        return {h, sites_lost(candidates_, choice.with(activity::each_once(data_.survey.evenings.size())))};
    }

 private:
    std::span<const Candidate> candidates_;
    const Evidenced& data_;
    const Settings& settings_;
    core::Threads threads_;
    std::vector<std::size_t> trees_;
    Rechoice choice_;
    double metres_;
};

}  // namespace

Certainty how_sure(std::vector<Candidate>& candidates, const Evidenced& data, const Settings& settings,
                   core::Threads threads) {
    const std::size_t evenings = data.survey.evenings.size();
    const auto draws = activity::draw_evenings(evenings, settings.activity.seed, most_random_draws);
    give_ranges(candidates, data.inventory, data.density, data.at_trees, draws, settings.choice, threads);
    Certainty certainty{evenings, draws.size(), {}, {}};
    if (in_order_of_site(candidates).empty()) return certainty;
    const Trials trials(candidates, data, settings, threads);
    for (const auto& all :
         {trials.without_evenings(), trials.without_parts(Source::station, by_station(data.survey)),
          trials.without_parts(Source::observer, by_observer(data.survey))})
        if (all.size() > 1) certainty.strongest.push_back(strongest(all));
    for (const double factor : {0.5, 2.0})
        certainty.other_bandwidths.push_back(trials.at(factor * data.density.bandwidth().h));
    return certainty;
}

}  // namespace roostward::siting
