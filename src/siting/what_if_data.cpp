#include <algorithm>
#include <map>
#include <numeric>
#include <utility>

#include "contention.hpp"
#include "roostward/siting/redraws.hpp"
#include "what_if_parts.hpp"

namespace roostward::siting {

namespace {

double sum_of(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
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

/// Chooses again among the trees in contention.
class OtherData {
 public:
    OtherData(std::span<const Candidate> candidates, const Evidenced& data, const Settings& settings,
              core::Threads threads)
        : candidates_(candidates),
          data_(data),
          settings_(settings),
          threads_(threads),
          trees_(in_contention(candidates)),
          choice_(candidates, data.inventory, data.density, settings.choice, reference_density(candidates),
                  trees_, activity::rows_of(data.at_trees, trees_)),
          metres_(sum_of(data.density.metres_flown())) {}

    void at_other_bandwidth(double factor) {
        const core::Metres h = data_.density.bandwidth().h, other = factor * h;
        add({Change::bandwidth, "activity.bandwidth_m", h.value(), other.value(), {}, {}}, at(other));
    }

    void without_evenings() {
        const std::vector<core::Evening>& evenings = data_.survey.evenings;
        if (evenings.size() < 2) return;
        for (std::size_t n = 0; n < evenings.size(); ++n) {
            std::vector<std::uint16_t> times = activity::each_once(evenings.size());
            times[n] = 0;
            add({Change::evening,
                 core::to_text(evenings[n]),
                 {},
                 {},
                 data_.density.metres_flown()[n] / metres_,
                 {}},
                choice_.with(times));
        }
    }

    void without_parts(Change change, const Parts& parts) {
        if (parts.size() < 2) return;
        for (const auto& [name, watches] : parts) {
            const activity::FlightDensity part(survey::part_of(data_.survey, watches), data_.density);
            add({change, name, {}, {}, sum_of(part.metres_flown()) / metres_, {}},
                choice_.without(part, threads_));
        }
    }

    [[nodiscard]] std::vector<WhatIf> lines() && { return std::move(lines_); }

 private:
    void add(WhatIf line, const std::vector<std::size_t>& chosen) {
        tell_changes(line, candidates_, data_.inventory, chosen);
        lines_.push_back(std::move(line));
    }

    /// All is made anew, λ_ref too.
    [[nodiscard]] std::vector<std::size_t> at(core::Metres h) const {
        activity::Bandwidth other = data_.density.bandwidth();
        other.h = h;
        const activity::FlightDensity density(data_.survey, other, settings_.activity);
        activity::EveningTable table = density.at(stems_of(data_.inventory, trees_), threads_);
        double reference = 0.0;
        for (const auto& tree : density.summarise(table))
            reference = std::max(reference, tree.flight_density);
        const Rechoice choice(candidates_, data_.inventory, density, settings_.choice, reference, trees_,
                              std::move(table));
        return choice.with(activity::each_once(data_.survey.evenings.size()));
    }

    std::span<const Candidate> candidates_;
    const Evidenced& data_;
    const Settings& settings_;
    core::Threads threads_;
    std::vector<std::size_t> trees_;
    Rechoice choice_;
    double metres_;
    std::vector<WhatIf> lines_;
};

}  // namespace

std::vector<WhatIf> other_data(std::span<const Candidate> candidates, const Evidenced& data,
                               const Settings& settings, core::Threads threads) {
    OtherData other(candidates, data, settings, threads);
    other.at_other_bandwidth(0.5);
    other.at_other_bandwidth(2.0);
    other.without_evenings();
    other.without_parts(Change::station, by_station(data.survey));
    other.without_parts(Change::observer, by_observer(data.survey));
    return std::move(other).lines();
}

}  // namespace roostward::siting
