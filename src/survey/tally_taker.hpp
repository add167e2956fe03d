#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "what_counts.hpp"

namespace roostward::survey {

/// Makes flights of tallies, see match().
class TallyTaker {
 public:
    /// `counted`: for each watch of the file, where it is among the watches that count.
    TallyTaker(const Noted& noted, const Settings& settings,
               const std::vector<std::optional<std::uint32_t>>& counted, WhatCounts& rules, Matched& made)
        : noted_(noted), settings_(settings), counted_(counted), rules_(rules), made_(made) {}

    void run();

 private:
    struct Found {
        const Watch* watch = nullptr;  ///< as in the file
        std::uint32_t counted = 0;     ///< index into Survey::watches
        double share = 1.0;            ///< of the tally that lies in the hours that count
    };
    [[nodiscard]] std::optional<Found> watch_of(const Tally& tally);
    [[nodiscard]] std::vector<std::size_t> watches_that_fit(const Tally& tally) const;
    [[nodiscard]] double share_that_counts(const Tally& tally, const Watch& whole, const Watch& part);
    /// Of one tally, how many flights count.
    [[nodiscard]] double flights_of(const Tally& tally, const Found& found) const;
    /// Returns whether they lie on the line now.
    bool lay(const Tally& tally, double flights, const geo::Line& line, std::uint32_t watch,
             core::Metres accuracy);
    void lay_across_gate(const Tally& tally, double flights, const Found& found);
    void add_unplaced(const Tally& tally, double flights, std::uint32_t watch);
    [[nodiscard]] const Route* route_of(const Tally& tally) const;
    void take(const Tally& tally, const Found& found);
    void drop_watches_of_gates_only();
    void doubt(const Tally& tally, std::string kind, std::string value, std::string sentence);

    const Noted& noted_;
    const Settings& settings_;
    const std::vector<std::optional<std::uint32_t>>& counted_;
    WhatCounts& rules_;
    Matched& made_;
    std::set<std::uint32_t> with_passes_;   ///< watches that have passes or tracks
    std::set<std::uint32_t> at_gates_;      ///< watches at which somebody counted across a gate
    std::set<std::uint32_t> beyond_gates_;  ///< and at which flights were counted elsewhere in view
    std::size_t on_lines_ = 0;              ///< tallies
};

}  // namespace roostward::survey
