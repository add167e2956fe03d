#pragma once

#include <chrono>
#include <functional>
#include <map>
#include <optional>

#include "roostward/survey/records.hpp"

namespace roostward::survey {

/// When the sun sets at the site on an evening; empty where it does not set.
using SunsetOf = std::function<std::optional<core::Instant>(core::Evening)>;

/// Which hours of an evening count. Common practice from memory; the end by the animals.
struct HoursCounted {
    std::chrono::minutes before_sunset{15}, after_sunset{90};
    bool all = false;  ///< whatever the sun does
};

/// The hours of each evening that count.
class EveningHours {
 public:
    /// Without `sunset_of` all hours count.
    EveningHours(SunsetOf sunset_of, const HoursCounted& counted)
        : sunset_of_(std::move(sunset_of)), counted_(counted) {}

    struct Window {
        core::Instant sunset, from, to;
        [[nodiscard]] bool holds(core::Instant time) const { return from <= time && time <= to; }
    };
    /// Empty where all hours count, or where the sun does not set. Asked once an evening.
    [[nodiscard]] std::optional<Window> of(core::Evening evening);

 private:
    SunsetOf sunset_of_;
    HoursCounted counted_;
    std::map<core::Evening, std::optional<Window>> known_;
};

/// The part of a watch that lies in the window; a walk is cut where the walker was then. Empty where nothing
/// is left.
[[nodiscard]] std::optional<Watch> part_in(const Watch& watch, const EveningHours::Window& window);

}  // namespace roostward::survey
