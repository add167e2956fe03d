#include "heard.hpp"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "roostward/core/catalogue.hpp"

namespace roostward::survey {

namespace {

constexpr core::Metres at_the_station{1.0};
constexpr std::size_t fewest_at_a_station = 3;
constexpr std::size_t enough_to_judge = 20, few_points = 5;
constexpr double heaped_share = 0.8;

bool believed(const SeenPass& seen) {
    return !seen.placed || seen.pass->place_of == PlaceOf::animal;
}

/// Passes are judged together that were seen from one place, whatever the evening.
struct AtStation {
    std::vector<SeenPass*> there;
    std::size_t all = 0;
    std::string watch;
};

}  // namespace

void find_heard(std::vector<SeenPass>& passes, std::span<const Watch> watches,
                const core::Records<Pass>& layer, core::Findings& findings) {
    std::map<core::PlanePoint, AtStation> stations;
    for (SeenPass& seen : passes) {
        const Watch& watch = watches[seen.watch];
        if (believed(seen) || watch.path.size() != 1) continue;
        AtStation& at = stations[watch.path.front()];
        if (at.all++ == 0) at.watch = watch.name;
        if (core::distance(seen.pass->position, watch.path.front()) <= at_the_station)
            at.there.push_back(&seen);
    }
    for (auto& [station, at] : stations) {
        if (at.there.size() < fewest_at_a_station || 2 * at.there.size() <= at.all) continue;
        for (SeenPass* seen : at.there)
            seen->placed = false;
        findings.push_back({core::Severity::doubtful, layer.place(at.there.front()->pass->row),
                            "many passes at few points",
                            core::said("survey.at_station.value",
                                       {{"count", at.there.size()}, {"all", at.all}, {"watch", at.watch}}),
                            core::said("survey.at_station")});
    }
}

void tell_said_to_be_heard(const std::vector<SeenPass>& passes, const core::Records<Pass>& layer,
                           core::Findings& findings) {
    const auto heard = static_cast<std::size_t>(
        std::ranges::count_if(passes, [](const SeenPass& seen) { return !seen.pass->says_where(); }));
    if (heard == 0) return;
    findings.push_back({core::Severity::note,
                        {layer.file, layer.layer, {}, {}},
                        "heard somewhere in view",
                        core::said_for(heard, "survey.passes"),
                        core::said("survey.heard")});
}

void tell_heaped(const std::vector<SeenPass>& passes, const core::Records<Pass>& layer,
                 core::Findings& findings) {
    std::vector<std::pair<double, double>> at;
    for (const SeenPass& seen : passes)
        if (!believed(seen) && seen.pass->accuracy.value() <= 0.0)
            at.emplace_back(seen.pass->position.easting, seen.pass->position.northing);
    const std::size_t all = at.size();
    std::ranges::sort(at);
    std::vector<std::size_t> counts;
    for (std::size_t i = 0; i < all; ++i) {
        if (i == 0 || at[i] != at[i - 1]) counts.push_back(0);
        ++counts.back();
    }
    std::ranges::sort(counts, std::greater{});
    counts.resize(std::min(counts.size(), few_points));
    std::size_t heaped = 0;
    for (const std::size_t count : counts)
        heaped += count;
    if (all < enough_to_judge || static_cast<double>(heaped) < heaped_share * static_cast<double>(all))
        return;
    findings.push_back(
        {core::Severity::doubtful,
         {layer.file, layer.layer, {}, {}},
         "many passes at few points",
         core::said_for(counts.size(), "survey.heaped.value", {{"passes", heaped}, {"all", all}}),
         core::said("survey.heaped")});
}

void tell_if_nothing_is_placed(const Survey& survey, core::Findings& findings) {
    if (survey.flights.empty() || std::ranges::any_of(survey.flights, &Flight::placed)) return;
    findings.push_back({core::Severity::doubtful,
                        {},
                        "no flight has a place",
                        core::said("survey.not_placed.value", {{"count", survey.flights.size()}}),
                        core::said("survey.not_placed")});
}

void merge_feeding(std::vector<SeenPass>& passes, std::chrono::minutes once, const core::Records<Pass>& layer,
                   core::Findings& findings) {
    std::vector<SeenPass*> feeding;
    for (SeenPass& seen : passes)
        if (seen.pass->behaviour == Behaviour::foraging && seen.pass->time) feeding.push_back(&seen);
    std::ranges::stable_sort(feeding, {},
                             [](const SeenPass* seen) { return std::pair(seen->watch, *seen->pass->time); });
    std::size_t merged = 0, times = 0;
    for (std::size_t first = 0, last = 0; first < feeding.size(); first = last) {
        while (last < feeding.size() && feeding[last]->watch == feeding[first]->watch &&
               *feeding[last]->pass->time < *feeding[first]->pass->time + once)
            ++last;
        last = std::max(last, first + 1);
        if (last - first == 1) continue;
        for (std::size_t i = first; i < last; ++i)
            feeding[i]->counted = 1.0 / static_cast<double>(last - first);
        merged += last - first;
        ++times;
    }
    if (times == 0) return;
    findings.push_back({core::Severity::note,
                        {layer.file, layer.layer, {}, {}},
                        "feeding counted once",
                        core::said("survey.feeding.value", {{"count", merged}, {"times", times}}),
                        core::said("survey.feeding", {{"minutes", once.count()}})});
}

}  // namespace roostward::survey
