#pragma once

#include <map>
#include <optional>
#include <string>
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
        core::Evening evening;
        std::optional<core::Instant> time;
        const std::string& animal;
        core::Place place;
    };
    [[nodiscard]] bool counts(const Row& row);
    /// The part of a watch whose hours count, if its evening does.
    [[nodiscard]] std::optional<Watch> part_that_counts(const Watch& watch, const core::Place& place);
    [[nodiscard]] bool good_weather(core::Evening evening, const core::Place& place);

    /// How many hours were cut off the watches.
    void tell_cut_watches(const core::Place& watches);
    /// Words for animals that nobody knows.
    void tell_unknown_animals();

 private:
    [[nodiscard]] std::string poor_weather(const Watch& watch) const;
    [[nodiscard]] bool our_animal(const Row& row);
    [[nodiscard]] bool at_an_hour_that_counts(const Row& row);
    /// `key`: of the sentence that tells them.
    [[nodiscard]] std::string hours_that_count(std::string_view key,
                                               const EveningHours::Window& window) const;
    void set_aside(const core::Place& place, std::string kind, std::string value, std::string sentence);

    struct Unknown {
        core::Place first;
        std::size_t rows = 0;
    };

    const Settings& settings_;
    EveningHours hours_;
    core::Findings& findings_;
    std::map<core::Evening, std::string> poor_;  ///< why
    std::vector<core::Hours> cut_hours_;
    std::map<std::string, Unknown> unknown_animals_;
};

}  // namespace roostward::survey
