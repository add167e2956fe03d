#pragma once

#include <map>
#include <optional>
#include <string>
#include <tuple>
#include <vector>

#include "roostward/survey/survey.hpp"

namespace roostward::survey {

/// Which evenings, hours and animals count. What does not count is told as a finding.
class WhatCounts {
 public:
    WhatCounts(const core::Records<Watch>& watches, const Settings& settings, const SunsetOf& sunset_of,
               core::Findings& findings);

    /// What was noted of a flight or of several.
    struct Row {
        NotedIn layer;
        core::Evening evening;
        std::optional<core::Instant> time;
        const std::string& animal;
        core::Place place;
    };
    [[nodiscard]] bool counts(const Row& row);
    /// Whether the boxes are for this animal, which may not be told; else the row is apart.
    [[nodiscard]] bool our_animal(NotedIn layer, const std::string& animal, const core::Place& place);
    /// Whether it was one of the animals to keep away from.
    [[nodiscard]] bool to_keep_from(NotedIn layer, const std::string& animal);
    /// Whether what came out of a tree may have been kin of the animals that the boxes are for.
    [[nodiscard]] bool may_be_kin(NotedIn layer, const std::string& animal);
    /// The part of a watch whose hours count, if its evening does.
    [[nodiscard]] std::optional<Watch> part_that_counts(const Watch& watch, const core::Place& place);
    [[nodiscard]] bool good_weather(core::Evening evening, const core::Place& place);

    /// How many hours were cut off the watches.
    void tell_cut_watches(const core::Place& watches);
    /// What is apart, one finding a kind and file.
    void tell_what_is_apart();

 private:
    [[nodiscard]] std::string poor_weather(const Watch& watch) const;
    [[nodiscard]] bool at_an_hour_that_counts(const Row& row);
    /// `key`: of the sentence that tells them.
    [[nodiscard]] std::string hours_that_count(std::string_view key,
                                               const EveningHours::Window& window) const;
    void set_aside(const core::Place& place, std::string kind, std::string value, std::string sentence);

    struct Apart {
        core::Place first;
        std::size_t rows = 0;
    };
    /// By layer and file, what it is, and its name.
    using Kind = std::tuple<NotedIn, std::string, AnimalFit, std::string>;
    [[nodiscard]] const AnimalMeaning& meaning_of(NotedIn layer, const std::string& animal);
    [[nodiscard]] core::Finding told(const Kind& kind, const Apart& apart) const;

    const Settings& settings_;
    EveningHours hours_;
    core::Findings& findings_;
    std::map<core::Evening, std::string> poor_;  ///< why
    std::vector<core::Hours> cut_hours_;
    AnimalDictionary dictionary_;
    std::map<NotedIn, AnimalReader> readers_;
    std::vector<std::string> our_families_, families_to_keep_from_;
    std::map<Kind, Apart> apart_;
};

}  // namespace roostward::survey
