#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "roostward/core/clock_offset.hpp"
#include "roostward/core/time.hpp"
#include "roostward/io/reading.hpp"

namespace roostward::io {

/// Which of day and month comes first in "05/06/2026".
enum class DateOrder { unknown, day_first, month_first };

/// A date, a time of day or both, as somebody wrote them.
struct WrittenTime {
    std::optional<core::Date> date;
    std::optional<std::chrono::milliseconds> time_of_day;  ///< since midnight; 24 h is the end of the day
    std::optional<std::chrono::minutes> offset;            ///< local time minus UTC
    bool of_twelve_hours = false;  ///< an hour from 1 to 12 of which nothing says which half of the day it is
};

/// ISO 8601, basic or extended, with `T` or a space; dates also as d/m/y, m/d/y, d.m.y and "12 June 2026"
/// (years of two digits are of this century); times also as "9:04 pm", "21h04", "21.04", "2104", "904",
/// "21:04 Uhr".
[[nodiscard]] Reading<WrittenTime> read_time(std::string_view text, DateOrder order);

/// The order that a date of the form a/b/y shows: one of the two is over 12. Empty where the text is not of
/// this form or its form needs no order; `unknown` where both fit.
[[nodiscard]] std::optional<DateOrder> order_shown_by(std::string_view text);

/// A moment and the evening it belongs to.
struct Moment {
    core::Instant instant;
    core::Evening evening;
    bool repeated = false;  ///< the local hour stands twice on the clock; the first was taken
};

/// The clock on the wall at the site.
class SiteClock {
 public:
    /// `zone_name` is an IANA name; empty: times must carry their offset. Throws Error{site_file} for an
    /// unknown name.
    explicit SiteClock(const std::string& zone_name);

    [[nodiscard]] bool has_zone() const { return zone_ != nullptr; }

    /// `time` must have a date and a time of day, and an offset unless the clock has a zone. Trouble: a
    /// skipped local hour; a date before 1990 or after 2037.
    [[nodiscard]] Reading<Moment> moment_of(const WrittenTime& time) const;
    /// What the clock shows: "2026-06-12T21:04:00+01:00". With no zone, UTC.
    [[nodiscard]] std::string local_text(core::Instant instant) const;
    /// How far it is ahead of UTC between the two: what was in force before the last change until the first,
    /// that change, and each until the second. One that was in force before 1970 begins then. With no zone,
    /// UTC.
    [[nodiscard]] std::vector<core::ClockOffset> offsets(core::Instant first, core::Instant last) const;
    /// The instant at which it shows that; of an hour that stands twice the first, of a skipped one what
    /// comes so long after midnight. With no zone, UTC.
    [[nodiscard]] core::Instant instant_at(core::Date date, std::chrono::minutes after_midnight) const;
    /// The evening of an instant; with no zone the offset from UTC tells local noon.
    [[nodiscard]] core::Evening evening_of(core::Instant instant, std::chrono::minutes offset) const;

 private:
    const void* zone_ = nullptr;
};

}  // namespace roostward::io
