#include "roostward/report/evenings_page.hpp"

#include <gtest/gtest.h>

#include <fmt/format.h>

#include "roostward/evenings/teams.hpp"

namespace roostward::report {
namespace {

using std::chrono::hours, std::chrono::minutes;

std::size_t count_of(const std::string& text, std::string_view part) {
    std::size_t count = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
        ++count;
    return count;
}

core::Instant at(int day, int hour, int minute) {
    return core::Instant(std::chrono::sys_days(std::chrono::year(2026) / 6 / day) + hours(hour) +
                         minutes(minute));
}

/// UTC on the wall.
std::string clock_on_the_wall(core::Instant instant) {
    return core::to_text(instant).substr(11, 5);
}

evenings::Round round_of(std::size_t team, int day, std::vector<std::size_t> places) {
    evenings::Round round{team, {}, core::Metres(120.0)};
    for (std::size_t i = 0; i < places.size(); ++i) {
        const int start = 21 * 60 + 30 * static_cast<int>(i);
        round.posts.push_back({places[i],
                               at(day, 0, start),
                               at(day, 0, start + 25),
                               i == 0 ? std::optional<survey::FieldOfView>()
                                      : survey::FieldOfView{core::Degrees(225.0), core::Degrees(120.0)},
                               core::Metres(40.0),
                               {evenings::Because::new_ground, 11, {}}});
    }
    return round;
}

/// Two teams on two evenings, three places, a tree that could hold a box and one that could not.
plan::EveningsPlan two_evenings() {
    plan::EveningsPlan plan;
    plan.settings.site_name = "Mill <Park>";
    plan.planning_crs = {"EPSG:32630"};
    plan.middle_in_plane = {500100.0, 5800100.0};
    plan.trees.rows.resize(2);
    plan.trees.rows[0].id = "A1";
    plan.trees.rows[0].stem = {500050.0, 5800050.0};
    plan.trees.rows[1].id = "A2";
    plan.trees.rows[1].stem = {500350.0, 5800050.0};
    plan.verdicts.resize(2);
    plan.verdicts[1].state = trees::State::ruled_out;
    plan.surroundings.water = {"water.geojson", {{{}, {{{500000.0, 5800020.0}, {500400.0, 5800020.0}}}, {}}}};
    evenings::ToCome& to_come = plan.to_come;
    to_come.settings.leader = "R.K.";
    to_come.settings.gate_closes = minutes(22 * 60 + 30);
    to_come.teams = evenings::teams_of(to_come.settings, 2);
    to_come.places = {
        {{500040.0, 5800040.0}, {}}, {{500140.0, 5800140.0}, "oak"}, {{500240.0, 5800240.0}, {}}};
    for (const int day : {12, 19})
        to_come.evenings.push_back({{std::chrono::year(2026) / 6 / day},
                                    at(day, 20, 30),
                                    at(day, 20, 15),
                                    at(day, 22, 0),
                                    day > 12,
                                    core::Hours(48.0),
                                    {round_of(0, day, {0, 1}), round_of(1, day, {2})}});
    to_come.spare.push_back(
        {{std::chrono::year(2026) / 6 / 26}, at(26, 20, 30), at(26, 20, 15), at(26, 22, 0)});
    to_come.trees = 1;
    to_come.share_after = {0.4, 0.75};
    to_come.unwatched_toward = core::Degrees(90.0);
    to_come.unwatched_trees = 7;
    return plan;
}

TEST(EveningsPage, HasACardForEachTeamOnEachEvening) {
    const std::string page = evenings_page(two_evenings(), clock_on_the_wall);
    EXPECT_EQ(count_of(page, "<section class=\"card\">"), 4U);
    EXPECT_EQ(count_of(page, "Provisional. Ask the leader"), 2U) << "the first evening is settled";
    EXPECT_EQ(count_of(page, "21:30–21:55"), 4U)
        << "the second post of team 1: on the cards and in the tables";
    EXPECT_EQ(count_of(page, "Gate closes:</b> 22:30"), 4U);
    EXPECT_EQ(count_of(page, "south-west, 225°, over 120°"), 4U);
}

TEST(EveningsPage, SaysWhatTheEveningsWillAndWillNotShow) {
    const std::string page = evenings_page(two_evenings(), clock_on_the_wall);
    for (const char* words :
         {"after these evenings it will be 75 %",
          "7 trees that could hold a box stay unwatched, most of them to the east",
          "Friday 26 June 2026, 20:15 to 22:00", "They never tell how many animals there are"})
        EXPECT_NE(page.find(words), std::string::npos) << words;
}

TEST(EveningsPage, EveryCardCarriesTheCautionsOfTheNight) {
    const std::string page = evenings_page(two_evenings(), clock_on_the_wall);
    for (const char* words :
         {"Never touch a bat. Bite or scratch: wash with soap and water for at least 15 minutes",
          "nor within 5 m of open water", "Nobody watches alone.", "Under 18 only with a parent or guardian",
          "We walked this round by day.", "Go if: 10 °C or more at sunset, wind up to 5 m/s, dry."})
        EXPECT_GE(count_of(page, words), 4U) << words;
}

TEST(EveningsPage, HazardsAreNamedWhereTheMapsShowThemAndAreNoAssessment) {
    const std::string page = evenings_page(two_evenings(), clock_on_the_wall);
    EXPECT_NE(page.find("open water within 30 m"), std::string::npos);
    EXPECT_NE(page.find("2026-06-12, team 1, post A"), std::string::npos);
    EXPECT_EQ(page.find("traffic: a road within 30 m"), std::string::npos) << "no road is known";
    EXPECT_NE(page.find("This is not a risk assessment until"), std::string::npos);
}

TEST(EveningsPage, TakesNamesAsText) {
    const std::string page = evenings_page(two_evenings(), clock_on_the_wall);
    EXPECT_EQ(page.find("Mill <Park>"), std::string::npos);
    EXPECT_NE(page.find("Mill &lt;Park&gt;"), std::string::npos);
    EXPECT_EQ(page.find("<script"), std::string::npos);
}

}  // namespace
}  // namespace roostward::report
