#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "roostward/report/evenings_files.hpp"
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

/// "2B": team and post; "B" where there is but one team.
[[nodiscard]] std::string post_name(const plan::EveningsPlan& plan, const evenings::Round& round,
                                    std::size_t post);

/// Legs of a round that cross a road, each by the index of the post that it leads to.
[[nodiscard]] std::vector<std::size_t> roads_crossed(const plan::EveningsPlan& plan,
                                                     const evenings::Round& round);

/// What the signs on a map mean; only those that may stand on it.
[[nodiscard]] std::string map_key(const plan::EveningsPlan& plan);

/// As tables write it: the minute in which it lies.
[[nodiscard]] std::string to_the_minute(const LocalText& local, core::Instant instant);

/// A post as tables write it; a look in all directions is empty.
struct PostInFigures {
    std::string lon, lat, look_deg, view_deg, farthest_seen_m;
};
[[nodiscard]] PostInFigures post_in_figures(const plan::EveningsPlan& plan, const evenings::Post& post);

/// "Eleven good trees that nobody has watched."
[[nodiscard]] std::string reason_in_words(const plan::EveningsPlan& plan, const evenings::Reason& reason);

}  // namespace roostward::report
