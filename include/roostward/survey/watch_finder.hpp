#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <unordered_map>
#include <vector>

#include "roostward/survey/records.hpp"

namespace roostward::survey {

/// What is known of where a flight was seen from.
struct Sighting {
    std::string watch;  ///< empty where not told
    std::optional<core::Instant> time;
    core::Evening evening;
    geo::Line path;
    bool placed = true;  ///< false: the path says nothing of where the animal was
};

/// Finds the watch that a flight was seen from: by name, else by time within three ranges.
class WatchFinder {
 public:
    /// Refers to `watches`, which must outlive the finder.
    explicit WatchFinder(std::span<const Watch> watches);

    struct Answer {
        std::optional<std::uint32_t> watch;
        std::string why;  ///< why there is none, or what is doubtful
    };
    /// Of several watches that fit, the one that saw it from the fewest ranges away; then the first.
    [[nodiscard]] Answer find(const Sighting& sighting) const;

 private:
    [[nodiscard]] Answer by_name(const Sighting& sighting, const std::vector<std::uint32_t>& named) const;
    [[nodiscard]] Answer by_time(const Sighting& sighting) const;

    std::span<const Watch> watches_;
    std::unordered_map<std::string, std::vector<std::uint32_t>> named_;
};

}  // namespace roostward::survey
