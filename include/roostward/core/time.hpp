#pragma once

#include <chrono>
#include <compare>
#include <string>

#include "roostward/core/units.hpp"

namespace roostward::core {

/// A moment, UTC, to the millisecond.
using Instant = std::chrono::sys_time<std::chrono::milliseconds>;

/// A calendar date with no time zone.
using Date = std::chrono::year_month_day;

/// An evening runs from local noon to local noon and is named by its first date.
struct Evening {
    Date date;
    friend bool operator==(const Evening&, const Evening&) = default;
    friend std::strong_ordering operator<=>(const Evening&, const Evening&) = default;
};

/// "2026-06-12"
[[nodiscard]] std::string to_text(Date date);
[[nodiscard]] inline std::string to_text(Evening evening) {
    return to_text(evening.date);
}
/// "2026-06-12T21:04:00Z"; milliseconds are shown where there are any.
[[nodiscard]] std::string to_text(Instant instant);

/// Signed; negative where `to` is before `from`.
[[nodiscard]] inline Hours hours_between(Instant from, Instant to) {
    return Hours(std::chrono::duration<double, std::ratio<3600>>(to - from).count());
}

}  // namespace roostward::core
