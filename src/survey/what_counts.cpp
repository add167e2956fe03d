#include "what_counts.hpp"

#include <algorithm>
#include <utility>

#include "roostward/core/catalogue.hpp"

namespace roostward::survey {

namespace {
constexpr core::Hours worth_telling{0.05};

bool holds(const std::vector<std::string>& names, const std::string& name) {
    return std::ranges::find(names, name) != names.end();
}
}  // namespace

WhatCounts::WhatCounts(const core::Records<Watch>& watches, const Settings& settings,
                       const SunsetOf& sunset_of, core::Findings& findings)
    : settings_(settings),
      hours_(sunset_of, settings.hours),
      findings_(findings),
      dictionary_(settings.animals) {
    static const AnimalAnswers none;
    for (const NotedIn layer : {NotedIn::passes, NotedIn::tracks, NotedIn::tallies}) {
        const auto answers = settings.answers.find(layer);
        readers_.emplace(
            layer, AnimalReader(dictionary_, answers == settings.answers.end() ? none : answers->second));
    }
    for (const std::string& animal : settings.animals.counted)
        our_families_.push_back(dictionary_.family_of(animal));
    for (const std::string& animal : settings.keep_from)
        families_to_keep_from_.push_back(dictionary_.family_of(animal));
    if (settings.keep_poor_weather) return;
    // One watch in poor weather makes the evening poor: the others only did not write it down.
    for (const auto& watch : watches.rows)
        if (const std::string why = poor_weather(watch); !why.empty()) poor_.emplace(watch.evening, why);
}

bool WhatCounts::counts(const Row& row) {
    return our_animal(row.layer, row.animal, row.place) && at_an_hour_that_counts(row) &&
           good_weather(row.evening, row.place);
}

const AnimalMeaning& WhatCounts::meaning_of(NotedIn layer, const std::string& animal) {
    return readers_.at(layer).meaning_of(animal);
}

bool WhatCounts::to_keep_from(NotedIn layer, const std::string& animal) {
    if (animal.empty() || families_to_keep_from_.empty()) return false;
    const AnimalMeaning& meaning = meaning_of(layer, animal);
    return meaning.fit != AnimalFit::noise && holds(families_to_keep_from_, meaning.family);
}

bool WhatCounts::may_be_kin(NotedIn layer, const std::string& animal) {
    if (animal.empty()) return true;
    const AnimalMeaning& meaning = meaning_of(layer, animal);
    const bool other = meaning.fit == AnimalFit::another && !holds(our_families_, meaning.family);
    return !other && meaning.fit != AnimalFit::noise;
}

void WhatCounts::set_aside(const core::Place& place, std::string kind, std::string value,
                           std::string sentence) {
    findings_.push_back(
        {core::Severity::set_aside, place, std::move(kind), std::move(value), std::move(sentence)});
}

std::string WhatCounts::poor_weather(const Watch& watch) const {
    if (watch.rain.value_or(false)) return core::said("weather.rain");
    if (watch.temperature && *watch.temperature < settings_.coldest)
        return core::said("weather.cold", {{"degrees", watch.temperature->value()}});
    if (watch.wind && *watch.wind > settings_.windiest)
        return core::said("weather.wind", {{"speed", watch.wind->value()}});
    return {};
}

bool WhatCounts::good_weather(core::Evening evening, const core::Place& place) {
    const auto poor = poor_.find(evening);
    if (poor == poor_.end()) return true;
    set_aside(
        place, "poor weather", poor->second,
        core::said("survey.poor_weather", {{"evening", core::to_text(evening)}, {"weather", poor->second}}));
    return false;
}

bool WhatCounts::our_animal(NotedIn layer, const std::string& animal, const core::Place& place) {
    if (animal.empty()) return true;
    const AnimalMeaning& meaning = meaning_of(layer, animal);
    if (meaning.fit == AnimalFit::counted) return true;
    const bool by_group = meaning.fit == AnimalFit::another || meaning.fit == AnimalFit::noise;
    Apart& apart =
        apart_[{layer, place.file, meaning.fit, by_group && !meaning.group.empty() ? meaning.group : animal}];
    if (apart.rows++ == 0) apart.first = place;
    return false;
}

core::Finding WhatCounts::told(const Kind& kind, const Apart& apart) const {
    struct Words {
        const char *kind, *sentence;
    };
    const auto& [layer, file, fit, name] = kind;
    const Words words = fit == AnimalFit::unknown ? Words{"unknown animal", "survey.unknown_animal"}
                        : fit == AnimalFit::noise ? Words{"noise", "survey.noise"}
                                                  : Words{"another animal", "survey.another_animal"};
    core::Place place = apart.first;
    place.field = "animal";
    return {core::Severity::apart,
            std::move(place),
            words.kind,
            name,
            core::said(words.sentence, {{"layer", to_text(layer)}, {"word", name}}),
            apart.rows};
}

void WhatCounts::tell_what_is_apart() {
    for (const auto& [kind, apart] : apart_)
        findings_.push_back(told(kind, apart));
}

std::string WhatCounts::hours_that_count(std::string_view key, const EveningHours::Window& window) const {
    return core::said(key,
                      {{"sunset", core::to_text(std::chrono::round<std::chrono::minutes>(window.sunset))},
                       {"before", settings_.hours.before_sunset.count()},
                       {"after", settings_.hours.after_sunset.count()}});
}

bool WhatCounts::at_an_hour_that_counts(const Row& row) {
    if (!row.time) return true;
    const auto window = hours_.of(row.evening);
    if (!window || window->holds(*row.time)) return true;
    const bool daylight = *row.time < window->from;
    set_aside(row.place, daylight ? "daylight time" : "outside the hours that count",
              core::to_text(*row.time),
              hours_that_count(daylight ? "survey.by_daylight" : "survey.other_hour", *window));
    return false;
}

std::optional<Watch> WhatCounts::part_that_counts(const Watch& watch, const core::Place& place) {
    if (!good_weather(watch.evening, place)) return std::nullopt;
    const auto window = hours_.of(watch.evening);
    if (!window) return watch;
    auto part = part_in(watch, *window);
    if (!part)
        set_aside(place, "outside the hours that count", core::to_text(watch.start),
                  hours_that_count("survey.watch_at_other_hours", *window));
    else if (watch.hours() - part->hours() > worth_telling)
        cut_hours_.push_back(watch.hours() - part->hours());
    return part;
}

void WhatCounts::tell_cut_watches(const core::Place& watches) {
    if (cut_hours_.empty()) return;
    core::Hours all;
    for (const core::Hours hours : cut_hours_)
        all = all + hours;
    findings_.push_back(
        {core::Severity::note, watches, "hours not counted",
         core::said_for(cut_hours_.size(), "survey.hours_cut.value", {{"hours", all.value()}}),
         core::said("survey.hours_cut", {{"before", settings_.hours.before_sunset.count()},
                                         {"after", settings_.hours.after_sunset.count()}})});
}

}  // namespace roostward::survey
