#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

#include "roostward/core/time.hpp"

// What number formats make of the bare numbers in a spreadsheet (ECMA-376, part 1, sections 18.8.30, 18.8.31
// and 18.17.4).
namespace roostward::io {

enum class ShownAs { number, percent, date, time, date_and_time, elapsed };

/// What the code of a number format shows, as "dd/mm/yyyy hh:mm"; its first section decides.
[[nodiscard]] ShownAs shown_as(std::string_view format_code);

/// The formats that files name by number alone.
[[nodiscard]] ShownAs shown_as_built_in(int format);

/// The day that serial dates are counted from.
enum class DateEpoch { year_1900, year_1904 };

/// A serial date as ISO 8601: "2026-06-09", "2026-06-09T21:46:46", or a time of day below 1. An hour may be
/// over 23 where time has been counted on. 60 of the epoch of 1900 is 1900-02-29, a day that never was. Empty
/// where there is no such date: below 0, after 9999, or the 0 of a date alone. Within 5 thousandths of a
/// second of a whole one it is that.
[[nodiscard]] std::optional<std::string> moment_text(double serial, ShownAs shown, DateEpoch epoch);

/// ISO 8601 of its parts, thousandths of a second only where there are some. `date` may be empty.
[[nodiscard]] std::string iso_text(const std::optional<core::Date>& date,
                                   const std::optional<std::chrono::milliseconds>& time_of_day);

/// "35%" of 0.35.
[[nodiscard]] std::string percent_text(double share);

}  // namespace roostward::io
