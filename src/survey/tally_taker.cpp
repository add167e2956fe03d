#include "tally_taker.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/folding.hpp"
#include "tallies.hpp"

namespace roostward::survey {

void TallyTaker::run() {
    for (const Flight& flight : made_.survey.flights)
        with_passes_.insert(*flight.watch);
    for (const Tally& tally : noted_.tallies.rows) {
        if (!rules_.our_animal(NotedIn::tallies, tally.animal, noted_.tallies.place(tally.row))) continue;
        if (const auto found = watch_of(tally)) take(tally, *found);
    }
    drop_watches_of_gates_only();
    if (on_lines_ == 0) return;
    made_.findings.push_back({core::Severity::note,
                              {noted_.tallies.file, noted_.tallies.layer, {}, {}},
                              "places from a drawing",
                              core::said_for(on_lines_, "tally.count"),
                              core::said("tally.from_drawing")});
}

void TallyTaker::doubt(const Tally& tally, std::string kind, std::string value, std::string sentence) {
    made_.findings.push_back({core::Severity::doubtful, noted_.tallies.place(tally.row), std::move(kind),
                              std::move(value), std::move(sentence)});
}

std::vector<std::size_t> TallyTaker::watches_that_fit(const Tally& tally) const {
    std::vector<std::size_t> fit;
    for (std::size_t w = 0; w < noted_.watches.rows.size(); ++w) {
        const Watch& watch = noted_.watches.rows[w];
        if (!tally.watch.empty() && core::folded(tally.watch) != core::folded(watch.name)) continue;
        if (tally.start && (*tally.start >= watch.end || *tally.end <= watch.start)) continue;
        if (tally.evening && *tally.evening != watch.evening) continue;
        fit.push_back(w);
    }
    return fit;
}

std::optional<TallyTaker::Found> TallyTaker::watch_of(const Tally& tally) {
    const core::Place place = noted_.tallies.place(tally.row, "watch");
    const std::vector<std::size_t> fit = watches_that_fit(tally);
    const auto set_aside = [&](const char* kind, std::string_view sentence) {
        made_.findings.push_back({core::Severity::set_aside, place, kind, tally.watch, core::said(sentence)});
    };
    if (fit.empty()) {
        set_aside("outside any watch", "tally.no_watch");
        return std::nullopt;
    }
    if (fit.size() > 1) {
        set_aside("several watches fit", "tally.several_watches");
        return std::nullopt;
    }
    const Watch& watch = noted_.watches.rows[fit.front()];
    if (!rules_.good_weather(watch.evening, noted_.tallies.place(tally.row))) return std::nullopt;
    const auto counted = counted_[fit.front()];
    const double share = counted ? share_that_counts(tally, watch, made_.survey.watches[*counted]) : 0.0;
    if (share > 0.0) return Found{&watch, *counted, share};
    set_aside("outside the hours that count", "tally.no_hour_counts");
    return std::nullopt;
}

double TallyTaker::share_that_counts(const Tally& tally, const Watch& whole, const Watch& part) {
    const core::Instant start = tally.start.value_or(whole.start), end = tally.end.value_or(whole.end);
    const core::Hours counted = core::hours_between(std::max(start, part.start), std::min(end, part.end));
    const double share = std::clamp(counted / core::hours_between(start, end), 0.0, 1.0);
    constexpr double nearly_all = 0.99;
    if (share > 0.0 && share < nearly_all)
        doubt(tally, "part of a tally", core::said("tally.part.value", {{"percent", 100.0 * share}}),
              core::said("tally.part"));
    return share;
}

double TallyTaker::flights_of(const Tally& tally, const Found& found) const {
    const double flights = tally.count * found.share;
    if (tally.behaviour != Behaviour::foraging || settings_.feeding_once.count() == 0) return flights;
    const double hours =
        core::hours_between(tally.start.value_or(found.watch->start), tally.end.value_or(found.watch->end))
            .value();
    const double once = std::chrono::duration<double, std::ratio<3600>>(settings_.feeding_once).count();
    return std::min(flights, std::ceil(found.share * hours / once));
}

const Route* TallyTaker::route_of(const Tally& tally) const {
    const auto& routes = noted_.routes.rows;
    const auto wanted = core::plain_words(tally.along);
    const auto found = std::ranges::find_if(
        routes, [&](const Route& route) { return core::plain_words(route.name) == wanted; });
    return found == routes.end() ? nullptr : &*found;
}

void TallyTaker::take(const Tally& tally, const Found& found) {
    if (with_passes_.contains(found.counted))
        doubt(tally, "tally beside passes", found.watch->name, core::said("tally.beside_passes"));
    const double flights = flights_of(tally, found);
    const bool placed = !tally.gate.empty() || !tally.along.empty();
    const double on_line = placed ? tally.share * flights : 0.0;
    if (!tally.gate.empty()) {
        lay_across_gate(tally, on_line, found);
        return add_unplaced(tally, flights - on_line, found.counted);
    }
    beyond_gates_.insert(found.counted);
    const Route* route = route_of(tally);
    bool laid = false;
    if (route != nullptr) laid = lay(tally, on_line, route->line, found.counted, drawn_to);
    if (placed && route == nullptr)
        doubt(tally, "unknown route", tally.along, core::said("tally.unknown_route"));
    else if (placed && !laid)
        doubt(tally, "route out of view", tally.along, core::said("tally.route_out_of_view"));
    add_unplaced(tally, laid ? flights - on_line : flights, found.counted);
}

bool TallyTaker::lay(const Tally& tally, double flights, const geo::Line& line, std::uint32_t watch,
                     core::Metres accuracy) {
    std::vector<Flight> pieces = laid_along(line, made_.survey.watches[watch]);
    if (pieces.empty()) return false;
    ++on_lines_;
    if (flights <= 0.0) return true;
    for (Flight& piece : pieces) {
        piece.noted_in = NotedIn::tallies;
        piece.evening = made_.survey.watch_evening[watch];
        piece.watch = watch;
        piece.count *= tally.both_ways ? 0.5 * flights : flights;
        piece.accuracy = accuracy;
        piece.behaviour = tally.behaviour;
        if (settings_.seen_length) piece.length = *settings_.seen_length;
        if (tally.both_ways) {
            made_.survey.flights.push_back(piece);
            std::ranges::reverse(piece.path);
        }
        made_.survey.flights.push_back(std::move(piece));
    }
    return true;
}

void TallyTaker::lay_across_gate(const Tally& tally, double flights, const Found& found) {
    const Watch& counted = made_.survey.watches[found.counted];
    Watch gate = at_gate(tally.gate, counted);
    gate.start = std::max(counted.start, tally.start.value_or(counted.start));
    gate.end = std::min(counted.end, tally.end.value_or(counted.end));
    const auto number = static_cast<std::uint32_t>(made_.survey.watches.size());
    const core::Metres accuracy = core::distance(tally.gate.front(), tally.gate.back()) / std::sqrt(12.0);
    const geo::Line way = way_through(tally.gate, gate);
    at_gates_.insert(found.counted);
    if (flights < flights_of(tally, found)) beyond_gates_.insert(found.counted);
    made_.survey.watches.push_back(std::move(gate));
    made_.survey.watch_evening.push_back(made_.survey.watch_evening[found.counted]);
    lay(tally, flights, way, number, accuracy);
}

void TallyTaker::add_unplaced(const Tally& tally, double flights, std::uint32_t watch) {
    if (flights <= 0.0) return;
    Flight flight;
    flight.noted_in = NotedIn::tallies;
    flight.evening = made_.survey.watch_evening[watch];
    flight.watch = watch;
    flight.path = {made_.survey.watches[watch].path.front()};
    flight.count = flights;
    flight.length = settings_.seen_length.value_or(
        metres_flown_in_view(metres_in_view(made_.survey.watches[watch].range), settings_.flight_length));
    flight.behaviour = tally.behaviour;
    flight.placed = false;
    made_.survey.flights.push_back(std::move(flight));
}

void TallyTaker::drop_watches_of_gates_only() {
    for (const auto* others : {&with_passes_, &beyond_gates_})
        for (const std::uint32_t watch : *others)
            at_gates_.erase(watch);
    if (at_gates_.empty()) return;
    std::vector<std::uint32_t> kept;
    for (std::uint32_t w = 0; w < made_.survey.watches.size(); ++w)
        if (!at_gates_.contains(w)) kept.push_back(w);
    made_.survey = part_of(made_.survey, kept);
}

}  // namespace roostward::survey
