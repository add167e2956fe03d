#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "even_ground.hpp"
#include "heard.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/survey/survey.hpp"
#include "roostward/survey/watch_finder.hpp"
#include "tallies.hpp"
#include "tally_taker.hpp"
#include "what_counts.hpp"
#include "written_twice.hpp"

namespace roostward::survey {

namespace {

constexpr core::Metres length_without_watches{30.0};

geo::Line piece_of(const Pass& pass, core::Metres length) {
    if (!pass.bearing) return {pass.position};
    const core::Metres half = 0.5 * length;
    return {core::moved(pass.position, *pass.bearing, core::Metres(-half.value())),
            core::moved(pass.position, *pass.bearing, half)};
}

/// Says why there is none, as far as it was found here.
[[noreturn]] void refuse_without_watches(const core::Records<Watch>& watches,
                                         const core::Findings& findings) {
    const auto first =
        std::ranges::find(findings, core::Severity::set_aside, [](const auto& f) { return f.severity; });
    const bool told = first != findings.end();
    throw core::Error(core::Fault::inputs, {watches.file, watches.layer, {}, {}},
                      told ? core::said("error.no_watch.first",
                                        {{"row", first->place.row.value_or(0)}, {"why", first->sentence}})
                           : core::said("error.no_watch"));
}

class Matcher {
 public:
    Matcher(const Noted& noted, const Settings& settings, const SunsetOf& sunset_of)
        : noted_(noted), settings_(settings), rules_(noted.watches, settings, sunset_of, made_.findings) {}

    Matched run(const std::vector<geo::Polygon>& allowed_area) {
        collect_roost_signs();
        collect_neighbours();
        if (noted_.watches.given())
            match_with_watches();
        else
            match_without_watches(allowed_area);
        rules_.tell_what_is_apart();
        return std::move(made_);
    }

 private:
    void collect_roost_signs() {
        for (const auto& pass : noted_.passes.rows)
            if (pass.behaviour == Behaviour::emerging || pass.behaviour == Behaviour::returning)
                if (pass.says_where() && rules_.may_be_kin(NotedIn::passes, pass.animal))
                    made_.roost_signs.push_back({pass.position, pass.behaviour, pass.evening});
    }

    void collect_neighbours() {
        for (const auto& pass : noted_.passes.rows)
            if (pass.says_where() && rules_.to_keep_from(NotedIn::passes, pass.animal))
                made_.neighbours.push_back({noted_.passes.place(pass.row), pass.position, pass.evening,
                                            pass.animal, pass.behaviour == Behaviour::perched});
        for (const auto& track : noted_.tracks.rows)
            if (rules_.to_keep_from(NotedIn::tracks, track.animal))
                for (const core::PlanePoint& place : track.path)
                    made_.neighbours.push_back(
                        {noted_.tracks.place(track.row), place, track.evening, track.animal, false});
    }

    void match_with_watches() {
        take_watches();
        if (made_.survey.watches.empty()) refuse_without_watches(noted_.watches, made_.findings);
        const WatchFinder finder(made_.survey.watches);
        take_passes(finder);
        for (const auto& track : noted_.tracks.rows)
            take(track, finder);
        TallyTaker(noted_, settings_, counted_, rules_, made_).run();
        tell_if_nothing_is_placed(made_.survey, made_.findings);
    }

    void take_watches() {
        std::set<core::Evening> evenings;
        for (const auto& watch : noted_.watches.rows) {
            const auto part = rules_.part_that_counts(watch, noted_.watches.place(watch.row));
            counted_.emplace_back();
            if (!part) continue;
            counted_.back() = static_cast<std::uint32_t>(made_.survey.watches.size());
            evenings.insert(watch.evening);
            made_.survey.watches.push_back(*part);
        }
        rules_.tell_cut_watches({noted_.watches.file, noted_.watches.layer, {}, {}});
        made_.survey.evenings.assign(evenings.begin(), evenings.end());
        for (const auto& watch : made_.survey.watches)
            made_.survey.watch_evening.push_back(evening_index(watch.evening));
    }

    [[nodiscard]] std::uint32_t evening_index(core::Evening evening) const {
        const auto& evenings = made_.survey.evenings;
        return static_cast<std::uint32_t>(std::ranges::lower_bound(evenings, evening) - evenings.begin());
    }

    [[nodiscard]] bool counts(const Pass& pass) {
        return rules_.counts(
            {NotedIn::passes, pass.evening, pass.time, pass.animal, noted_.passes.place(pass.row)});
    }
    [[nodiscard]] bool counts(const Track& track) {
        return rules_.counts(
            {NotedIn::tracks, track.evening, track.time, track.animal, noted_.tracks.place(track.row)});
    }

    /// The watch, or a finding that says why there is none.
    std::optional<std::uint32_t> watch_of(const Sighting& sighting, const WatchFinder& finder,
                                          const core::Place& place) {
        const WatchFinder::Answer answer = finder.find(sighting);
        if (!answer.watch)
            made_.findings.push_back({core::Severity::set_aside, place, "outside any watch", sighting.watch,
                                      core::said("survey.stays_out", {{"why", answer.why}})});
        else if (!answer.why.empty())
            made_.findings.push_back(
                {core::Severity::doubtful, place, "far from its watch", sighting.watch, answer.why});
        return answer.watch;
    }

    void take_passes(const WatchFinder& finder) {
        std::vector<SeenPass> seen;
        for (const auto& pass : noted_.passes.rows) {
            if (!counts(pass)) continue;
            const bool placed = pass.says_where();
            const auto watch = watch_of({pass.watch, pass.time, pass.evening, {pass.position}, placed},
                                        finder, noted_.passes.place(pass.row));
            if (!watch) continue;
            seen.push_back({&pass, *watch, placed, 1.0});
            check_accuracy(seen.back());
        }
        tell_said_to_be_heard(seen, noted_.passes, made_.findings);
        find_heard(seen, made_.survey.watches, noted_.passes, made_.findings);
        tell_heaped(seen, noted_.passes, made_.findings);
        count_once(seen, settings_.written_twice, noted_.passes, made_.findings);
        merge_feeding(seen, settings_.feeding_once, noted_.passes, made_.findings);
        for (const SeenPass& one : seen)
            made_.survey.flights.push_back(flight_of(one));
    }

    /// A position that could be anywhere in the watch's view is no position.
    void check_accuracy(SeenPass& seen) {
        const core::Metres range = made_.survey.watches[seen.watch].range;
        if (!seen.placed || seen.pass->accuracy <= range) return;
        made_.findings.push_back({core::Severity::doubtful, noted_.passes.place(seen.pass->row),
                                  "accuracy above range", fmt::format("{:g}", seen.pass->accuracy.value()),
                                  core::said("survey.accuracy_above_range", {{"range", range.value()}})});
        seen.placed = false;
    }

    [[nodiscard]] Flight flight_of(const Pass& pass) const {
        Flight flight;
        flight.time = pass.time;
        flight.count = pass.count;
        flight.accuracy = pass.accuracy;
        flight.step = std::max(noted_.passes.step, pass.step);
        flight.height = pass.height;
        flight.behaviour = pass.behaviour;
        return flight;
    }

    [[nodiscard]] Flight flight_of(const SeenPass& seen) const {
        const core::Metres range = made_.survey.watches[seen.watch].range;
        Flight flight = flight_of(*seen.pass);
        flight.count *= seen.counted;
        flight.watch = seen.watch;
        flight.evening = made_.survey.watch_evening[seen.watch];
        flight.length = settings_.seen_length.value_or(
            metres_flown_in_view(metres_in_view(range), settings_.flight_length));
        flight.path = piece_of(*seen.pass, settings_.seen_length.value_or(range));
        flight.placed = seen.placed;
        return flight;
    }

    [[nodiscard]] Flight flight_of(const Track& track) const {
        Flight flight;
        flight.time = track.time;
        flight.noted_in = NotedIn::tracks;
        flight.step = noted_.tracks.step;
        flight.count = track.count;
        flight.length = geo::length_of(track.path);
        flight.path = track.path;
        return flight;
    }

    void take(const Track& track, const WatchFinder& finder) {
        if (!counts(track)) return;
        const auto watch = watch_of({track.watch, track.time, track.evening, track.path, true}, finder,
                                    noted_.tracks.place(track.row));
        if (!watch) return;
        Flight flight = flight_of(track);
        flight.watch = watch;
        flight.evening = made_.survey.watch_evening[*watch];
        made_.survey.flights.push_back(std::move(flight));
    }

    void match_without_watches(const std::vector<geo::Polygon>& allowed_area) {
        std::set<core::Evening> evenings;
        for (const auto& pass : noted_.passes.rows)
            evenings.insert(pass.evening);
        for (const auto& track : noted_.tracks.rows)
            evenings.insert(track.evening);
        made_.survey.evenings.assign(evenings.begin(), evenings.end());
        std::vector<SeenPass> seen;
        for (const auto& pass : noted_.passes.rows)
            if (take_unwatched(pass)) seen.push_back({&pass, 0, true, 1.0});
        tell_heaped(seen, noted_.passes, made_.findings);
        for (const auto& track : noted_.tracks.rows)
            take_unwatched(track);
        made_.survey.even_ground = even_ground(noted_, allowed_area);
    }

    bool take_unwatched(const Pass& pass) {
        if (!counts(pass) || !has_a_place(pass)) return false;
        Flight flight = flight_of(pass);
        flight.evening = evening_index(pass.evening);
        flight.length = settings_.seen_length.value_or(length_without_watches);
        flight.path = piece_of(pass, flight.length);
        made_.survey.flights.push_back(std::move(flight));
        return true;
    }

    bool has_a_place(const Pass& pass) {
        if (pass.says_where()) return true;
        made_.findings.push_back({core::Severity::set_aside, noted_.passes.place(pass.row), "not placed", "",
                                  core::said("survey.heard_without_watches")});
        return false;
    }

    void take_unwatched(const Track& track) {
        if (!counts(track)) return;
        Flight flight = flight_of(track);
        flight.evening = evening_index(track.evening);
        made_.survey.flights.push_back(std::move(flight));
    }

    const Noted& noted_;
    const Settings& settings_;
    Matched made_;
    WhatCounts rules_;
    std::vector<std::optional<std::uint32_t>>
        counted_;  ///< for each watch of the file, its place in the survey
};

}  // namespace

Matched match(const Noted& noted, const std::vector<geo::Polygon>& allowed_area, const Settings& settings,
              const SunsetOf& sunset_of) {
    return Matcher(noted, settings, sunset_of).run(allowed_area);
}

}  // namespace roostward::survey
