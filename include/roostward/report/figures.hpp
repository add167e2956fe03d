#pragma once

#include <optional>
#include <string>

#include "roostward/activity/ranges.hpp"
#include "roostward/core/units.hpp"

/// Numbers as people read them: no finer than what they might be allows. Files keep their digits.
namespace roostward::report {

/// The largest of 1, 2 and 5 · 10^k that is no more than `most`, which is above 0.
[[nodiscard]] double round_step(double most);

/// A value and what it might be, all three in whole steps, ties away from 0.
struct Figure {
    double value = 0.0;
    double step = 1.0;
    bool under_step = false;  ///< it is more than 0, and less than half a step
    std::optional<activity::Range> range;

    /// One of the three with the decimals that it needs, with a point, as programs read it.
    [[nodiscard]] std::string plain(double of) const;
    /// The same with the decimal mark of the language.
    [[nodiscard]] std::string digits(double of) const;
    /// "35"; "under 2".
    [[nodiscard]] std::string value_in_words() const;
    /// "35 (20 to 60)"; "under 2 (0 to 12)"; "50 (range not known)".
    [[nodiscard]] std::string in_words() const;
};

/// In steps of no more than a quarter of the range's width. A value without a range, or with one of no width,
/// which tells nothing of its digits, is as coarse as one that may be anything from 0 to twice itself.
[[nodiscard]] Figure rounded_figure(double value, const std::optional<activity::Range>& range);

/// A score, 0–1, and its range, of 100: never finer than whole ones, and in tens where it has no range.
[[nodiscard]] Figure score_figure(double score, const std::optional<activity::Range>& range);
/// "65 (50 to 80)"; "90" where it has no range.
[[nodiscard]] std::string score_in_words(double score, const std::optional<activity::Range>& range);

/// A bearing in whole degrees, in [0, 360), ties upward.
[[nodiscard]] int whole_degrees(core::Degrees bearing);

/// A place as people read it: degrees with five decimals, a metre or less, and a point, so that it can be
/// copied.
[[nodiscard]] std::string place_in_degrees(core::Degrees latitude_or_longitude);

}  // namespace roostward::report
