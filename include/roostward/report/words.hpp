#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "roostward/plan/plan.hpp"

namespace roostward::report {

/// Metres flown per hectare and watched hour, from metres per square metre and hour.
[[nodiscard]] double per_hectare(double flight_density);

/// "SSE", in the reader's language.
[[nodiscard]] std::string point_in_words(core::Degrees bearing);

/// One sentence for a tree that can be chosen: what was seen there, and why it was or was not chosen.
[[nodiscard]] std::string why(const plan::Plan& plan, std::size_t tree);

/// "Nobody has checked: power lines, lamps. Check before anyone climbs."; empty where all was checked.
[[nodiscard]] std::string nobody_checked(const std::vector<trees::Check>& checks);

struct Caution {
    std::string_view matter;  ///< "tree"
    std::string text;
};
/// What everybody who acts on a plan must be told, in short sentences.
[[nodiscard]] std::vector<Caution> cautions();

/// The gravest of them in two lines of a terminal.
[[nodiscard]] std::string cautions_in_short(std::string_view all_of_them);

/// How much the survey can say, where that is little; one sentence each.
[[nodiscard]] std::vector<std::string> weak_points(const plan::Plan& plan);

}  // namespace roostward::report
