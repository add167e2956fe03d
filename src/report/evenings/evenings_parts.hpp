#pragma once

#include <string>

#include "roostward/report/evenings_page.hpp"
#include "roostward/report/way_there.hpp"

/// The parts of evenings.html, each as HTML.
namespace roostward::report {

/// What all of them are made from.
struct EveningsPaper {
    const plan::EveningsPlan& plan;
    const WallClock& clock;
    const WaysThere& ways;
};

/// What the evenings will show, where everybody stands, and what stays open.
[[nodiscard]] std::string evenings_overview(const EveningsPaper& paper);

/// A page a team and evening.
[[nodiscard]] std::string evening_cards(const EveningsPaper& paper);

/// For ranger, police and neighbours: who is in the park on which evening.
[[nodiscard]] std::string notice_for_neighbours(const EveningsPaper& paper);

/// What people may meet on these ways, with blanks: not a risk assessment until signed.
[[nodiscard]] std::string hazards_to_check(const EveningsPaper& paper);

/// "Friday 12 June 2026"
[[nodiscard]] std::string date_in_words(core::Date date);

/// "10 °C or more at sunset, wind up to 5 m/s, dry"
[[nodiscard]] std::string go_rule(const plan::EveningsPlan& plan);

/// Where the post is: the station's name, or the way there in words.
[[nodiscard]] std::string post_in_words(const EveningsPaper& paper, const evenings::Post& post);

/// "south-west, 225°, over 120°"; "all round"
[[nodiscard]] std::string look_in_words(const plan::EveningsPlan& plan, const evenings::Post& post);

/// "Eleven good trees that nobody has watched."
[[nodiscard]] std::string reason_in_words(const plan::EveningsPlan& plan, const evenings::Reason& reason);

}  // namespace roostward::report
