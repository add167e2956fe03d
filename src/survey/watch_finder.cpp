#include "roostward/survey/watch_finder.hpp"

#include <algorithm>
#include <limits>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/folding.hpp"

namespace roostward::survey {

namespace {

/// A watch's clock and an observer's may differ by so much (inclusive).
constexpr std::chrono::minutes clock_slack{1};
constexpr double farthest_in_ranges = 3.0;

bool during(const Watch& watch, const Sighting& sighting) {
    if (!sighting.time) return watch.evening == sighting.evening;
    return *sighting.time >= watch.start - clock_slack && *sighting.time <= watch.end + clock_slack;
}

/// From the nearest point of the watch's path to the nearest of the flight's vertices.
double ranges_away(const Watch& watch, const geo::Line& path) {
    double nearest = std::numeric_limits<double>::infinity();
    for (const auto& from : watch.path)
        for (const auto& to : path)
            nearest = std::min(nearest, core::distance(from, to).value());
    return nearest / watch.range.value();
}

}  // namespace

WatchFinder::WatchFinder(std::span<const Watch> watches) : watches_(watches) {
    for (std::uint32_t i = 0; i < watches.size(); ++i)
        named_[core::folded(watches[i].name)].push_back(i);
}

WatchFinder::Answer WatchFinder::find(const Sighting& sighting) const {
    if (sighting.watch.empty()) return by_time(sighting);
    const auto named = named_.find(core::folded(sighting.watch));
    if (named == named_.end()) return {{}, core::said("survey.unknown_watch", {{"watch", sighting.watch}})};
    return by_name(sighting, named->second);
}

WatchFinder::Answer WatchFinder::by_name(const Sighting& sighting,
                                         const std::vector<std::uint32_t>& named) const {
    for (const std::uint32_t i : named) {
        if (!during(watches_[i], sighting)) continue;
        const double away = ranges_away(watches_[i], sighting.path);
        if (!sighting.placed || away <= farthest_in_ranges) return {i, {}};
        return {i, core::said("survey.far_from_watch",
                              {{"metres", away * watches_[i].range.value()}, {"watch", sighting.watch}})};
    }
    return {{}, core::said("survey.outside_watch", {{"watch", sighting.watch}})};
}

WatchFinder::Answer WatchFinder::by_time(const Sighting& sighting) const {
    std::optional<std::uint32_t> best;
    double fewest = farthest_in_ranges;
    bool anyone = false;
    for (std::uint32_t i = 0; i < watches_.size(); ++i) {
        if (!during(watches_[i], sighting)) continue;
        anyone = true;
        const double away = ranges_away(watches_[i], sighting.path);
        if (away < fewest || (away == fewest && !best)) {
            fewest = away;
            best = i;
        }
    }
    if (best) return {best, {}};
    return {{}, core::said(anyone ? "survey.no_watch_near" : "survey.nobody_watched")};
}

}  // namespace roostward::survey
