#include "roostward/survey/survey.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <set>

#include "roostward/survey/watch_finder.hpp"

namespace roostward::survey {

namespace {

constexpr core::Metres length_without_watches{30.0};
/// A long straight flight that is noticed once, however far off, has ∫ e^(−s²/2ρ²) ds = √(2π)·ρ metres in
/// effective view for each chance to notice it.
const double metres_a_pass_a_range = std::sqrt(2.0 * std::numbers::pi);
constexpr core::Metres hull_margin{50.0};

class Matcher {
 public:
    Matcher(const core::Records<Pass>& passes, const core::Records<Track>& tracks,
            const core::Records<Watch>& watches, const Settings& settings, const SunsetOf& sunset_of)
        : passes_(passes),
          tracks_(tracks),
          watches_(watches),
          settings_(settings),
          hours_(sunset_of, settings.hours) {}

    Matched run(const std::vector<geo::Polygon>& allowed_area) {
        collect_roost_signs();
        leave_out_poor_weather();
        take_watches();
        if (watches_.given() && made_.survey.watches.empty())
            throw core::Error(
                core::Fault::inputs, {watches_.file, watches_.layer, {}, {}},
                "no watch can be used, so nothing is known of where nobody flew; see the findings");
        if (!watches_.given()) number_evenings_of_flights();
        const WatchFinder finder(made_.survey.watches);
        for (const auto& pass : passes_.rows)
            take(pass, finder);
        for (const auto& track : tracks_.rows)
            take(track, finder);
        if (!watches_.given()) lay_even_ground(allowed_area);
        return std::move(made_);
    }

 private:
    void find(const core::Place& place, core::Severity severity, std::string kind, std::string value,
              std::string sentence) {
        made_.findings.push_back({severity, place, std::move(kind), std::move(value), std::move(sentence)});
    }

    void collect_roost_signs() {
        for (const auto& pass : passes_.rows)
            if (pass.behaviour == Behaviour::emerging || pass.behaviour == Behaviour::returning)
                if (pass.place_of == PlaceOf::animal)
                    made_.roost_signs.push_back({pass.row, pass.position, pass.behaviour, pass.evening});
    }

    [[nodiscard]] std::string poor_weather(const Watch& watch) const {
        if (watch.rain.value_or(false)) return "rain";
        if (watch.temperature && *watch.temperature < settings_.coldest)
            return fmt::format("{:g} °C", watch.temperature->value());
        if (watch.wind && *watch.wind > settings_.windiest)
            return fmt::format("wind {:g} m/s", watch.wind->value());
        return {};
    }

    /// One watch in poor weather makes the evening poor: the others only did not write it down.
    void leave_out_poor_weather() {
        if (settings_.keep_poor_weather) return;
        for (const auto& watch : watches_.rows)
            if (const std::string why = poor_weather(watch); !why.empty()) poor_.emplace(watch.evening, why);
    }

    /// True, with a finding, where the row's evening is left out.
    bool poor_evening(core::Evening evening, const core::Place& place) {
        const auto poor = poor_.find(evening);
        if (poor == poor_.end()) return false;
        find(place, core::Severity::set_aside, "poor weather", poor->second,
             fmt::format(
                 "the evening of {} was poor weather ({}), so it says little about other evenings: left out; "
                 "activity.poor_weather = \"keep\" counts it",
                 core::to_text(evening), poor->second));
        return true;
    }

    void take_watches() {
        std::set<core::Evening> evenings;
        for (const auto& watch : watches_.rows) {
            if (poor_evening(watch.evening, watches_.place(watch.row))) {
                ++made_.watches_set_aside;
                continue;
            }
            const auto part = counted_part(watch);
            if (!part) {
                ++made_.watches_set_aside;
                continue;
            }
            evenings.insert(watch.evening);
            made_.survey.watches.push_back(*part);
        }
        tell_cut_watches();
        made_.survey.evenings.assign(evenings.begin(), evenings.end());
        for (const auto& watch : made_.survey.watches)
            made_.survey.watch_evening.push_back(evening_index(watch.evening));
    }

    [[nodiscard]] std::string hours_that_count(const EveningHours::Window& window) const {
        const auto minutes = [](std::chrono::minutes span) { return std::to_string(span.count()); };
        return fmt::format(
            "the sun set at {}, and the hours from {} min before that to {} min after it count",
            core::to_text(std::chrono::round<std::chrono::minutes>(window.sunset)),
            minutes(settings_.hours.before_sunset), minutes(settings_.hours.after_sunset));
    }

    std::optional<Watch> counted_part(const Watch& watch) {
        const auto window = hours_.of(watch.evening);
        if (!window) return watch;
        auto part = part_in(watch, *window);
        if (!part)
            find(watches_.place(watch.row), core::Severity::set_aside, "outside the hours that count",
                 core::to_text(watch.start),
                 hours_that_count(*window) +
                     ": if the clock, the date or the time zone is wrong, correct it; if it is right, "
                     "activity.other_hours = \"keep\" counts it");
        else if (part->hours() < watch.hours())
            cut_hours_.push_back(watch.hours() - part->hours());
        return part;
    }

    void tell_cut_watches() {
        if (cut_hours_.empty()) return;
        core::Hours all;
        for (const core::Hours hours : cut_hours_)
            all = all + hours;
        find({watches_.file, watches_.layer, {}, {}}, core::Severity::note, "hours not counted",
             fmt::format("{:.1f} h of {} watches", all.value(), cut_hours_.size()),
             fmt::format(
                 "they reach beyond the hours that count, from {} min before sunset to {} min after it; "
                 "activity.other_hours = \"keep\" counts them",
                 settings_.hours.before_sunset.count(), settings_.hours.after_sunset.count()));
    }

    /// True, with a finding, where the row's time does not count.
    bool other_hours(core::Evening evening, const std::optional<core::Instant>& time,
                     const core::Place& place) {
        if (!time) return false;
        const auto window = hours_.of(evening);
        if (!window || window->holds(*time)) return false;
        const bool daylight = *time < window->from;
        find(place, core::Severity::set_aside, daylight ? "daylight time" : "outside the hours that count",
             core::to_text(*time),
             hours_that_count(*window) + (daylight ? ": is the clock, the date or the time zone wrong?"
                                                   : "; activity.other_hours = \"keep\" counts it"));
        return true;
    }

    void number_evenings_of_flights() {
        std::set<core::Evening> evenings;
        for (const auto& pass : passes_.rows)
            evenings.insert(pass.evening);
        for (const auto& track : tracks_.rows)
            evenings.insert(track.evening);
        made_.survey.evenings.assign(evenings.begin(), evenings.end());
    }

    [[nodiscard]] std::uint32_t evening_index(core::Evening evening) const {
        const auto& evenings = made_.survey.evenings;
        return static_cast<std::uint32_t>(std::ranges::lower_bound(evenings, evening) - evenings.begin());
    }

    /// The watch, or a finding that says why there is none.
    std::optional<std::uint32_t> watch_of(const Sighting& sighting, const WatchFinder& finder,
                                          const core::Place& place) {
        const WatchFinder::Answer answer = finder.find(sighting);
        if (!answer.watch)
            find(place, core::Severity::set_aside, "outside any watch", sighting.watch,
                 answer.why + "; it stays out of the flight density");
        else if (!answer.why.empty())
            find(place, core::Severity::doubtful, "far from its watch", sighting.watch, answer.why);
        return answer.watch;
    }

    void take(const Pass& pass, const WatchFinder& finder) {
        const core::Place place = passes_.place(pass.row);
        if (other_hours(pass.evening, pass.time, place)) {
            ++made_.passes_set_aside;
            return;
        }
        Flight flight;
        flight.row = pass.row;
        flight.count = pass.count;
        flight.accuracy = pass.accuracy;
        flight.step = passes_.step;
        flight.behaviour = pass.behaviour;
        flight.placed = pass.place_of == PlaceOf::animal;
        if (watches_.given()) {
            if (poor_evening(pass.evening, place)) {
                ++made_.passes_set_aside;
                return;
            }
            flight.watch = watch_of({pass.watch, pass.time, pass.evening, {pass.position}, flight.placed},
                                    finder, place);
            if (!flight.watch) {
                ++made_.passes_set_aside;
                return;
            }
            check_accuracy(flight, place);
            flight.evening = made_.survey.watch_evening[*flight.watch];
            const core::Metres range = made_.survey.watches[*flight.watch].range;
            flight.length = settings_.seen_length.value_or(metres_a_pass_a_range * range);
            flight.path = piece_of(pass, settings_.seen_length.value_or(range));
        } else {
            flight.evening = evening_index(pass.evening);
            flight.length = settings_.seen_length.value_or(length_without_watches);
            flight.path = piece_of(pass, flight.length);
            if (!flight.placed) {
                find(place, core::Severity::set_aside, "not placed", "",
                     "heard by an observer or recorder, but no watch says where and how far: give the "
                     "watches");
                ++made_.passes_set_aside;
                return;
            }
        }
        made_.survey.flights.push_back(std::move(flight));
    }

    /// A position that could be anywhere in the watch's view is no position.
    void check_accuracy(Flight& flight, const core::Place& place) {
        const core::Metres range = made_.survey.watches[*flight.watch].range;
        if (!flight.placed || flight.accuracy <= range) return;
        find(place, core::Severity::doubtful, "accuracy above range",
             fmt::format("{:g}", flight.accuracy.value()),
             fmt::format(
                 "its accuracy is worse than its watch's range of {:g} m: counted as heard somewhere in view",
                 range.value()));
        flight.placed = false;
    }

    static geo::Line piece_of(const Pass& pass, core::Metres length) {
        if (!pass.bearing) return {pass.position};
        const core::Metres half = 0.5 * length;
        return {core::moved(pass.position, *pass.bearing, core::Metres(-half.value())),
                core::moved(pass.position, *pass.bearing, half)};
    }

    void take(const Track& track, const WatchFinder& finder) {
        const core::Place place = tracks_.place(track.row);
        if (other_hours(track.evening, track.time, place)) {
            ++made_.tracks_set_aside;
            return;
        }
        Flight flight;
        flight.row = track.row;
        flight.from_track = true;
        flight.step = tracks_.step;
        flight.count = track.count;
        flight.length = geo::length_of(track.path);
        flight.path = track.path;
        if (watches_.given()) {
            if (poor_evening(track.evening, place)) {
                ++made_.tracks_set_aside;
                return;
            }
            flight.watch =
                watch_of({track.watch, track.time, track.evening, track.path, true}, finder, place);
            if (!flight.watch) {
                ++made_.tracks_set_aside;
                return;
            }
            flight.evening = made_.survey.watch_evening[*flight.watch];
        } else {
            flight.evening = evening_index(track.evening);
        }
        made_.survey.flights.push_back(std::move(flight));
    }

    void lay_even_ground(const std::vector<geo::Polygon>& allowed_area) {
        made_.survey.even_ground = geo::merged(allowed_area);
        if (!allowed_area.empty()) return;
        std::vector<core::PlanePoint> seen;
        for (const auto& pass : passes_.rows)
            seen.push_back(pass.position);
        for (const auto& track : tracks_.rows)
            seen.insert(seen.end(), track.path.begin(), track.path.end());
        made_.survey.even_ground = geo::widened_hull(seen, hull_margin);
    }

    const core::Records<Pass>& passes_;
    const core::Records<Track>& tracks_;
    const core::Records<Watch>& watches_;
    const Settings& settings_;
    EveningHours hours_;
    std::vector<core::Hours> cut_hours_;
    std::map<core::Evening, std::string> poor_;
    Matched made_;
};

}  // namespace

double laid_on_path(const Flight& flight) {
    if (flight.path.size() == 1) return flight.length.value();
    const double path = geo::length_of(flight.path).value();
    return path > 0.0 ? flight.length.value() / path : 0.0;
}

Survey part_of(const Survey& survey, std::span<const std::uint32_t> watches) {
    Survey part;
    part.evenings = survey.evenings;
    std::vector<std::optional<std::uint32_t>> number(survey.watches.size());
    for (const std::uint32_t w : watches) {
        number[w] = static_cast<std::uint32_t>(part.watches.size());
        part.watches.push_back(survey.watches[w]);
        part.watch_evening.push_back(survey.watch_evening[w]);
    }
    for (const Flight& flight : survey.flights) {
        if (!flight.watch || !number[*flight.watch]) continue;
        part.flights.push_back(flight);
        part.flights.back().watch = number[*flight.watch];
    }
    return part;
}

Matched match(const core::Records<Pass>& passes, const core::Records<Track>& tracks,
              const core::Records<Watch>& watches, const std::vector<geo::Polygon>& allowed_area,
              const Settings& settings, const SunsetOf& sunset_of) {
    return Matcher(passes, tracks, watches, settings, sunset_of).run(allowed_area);
}

}  // namespace roostward::survey
