#include "roostward/report/evenings_page.hpp"

#include <gtest/gtest.h>

#include "two_evenings.hpp"

namespace roostward::report {
namespace {

using testing::two_evenings;

std::size_t count_of(const std::string& text, std::string_view part) {
    std::size_t count = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
        ++count;
    return count;
}

/// UTC on the wall.
std::string clock_on_the_wall(core::Instant instant) {
    return core::to_text(instant).substr(11, 5);
}

TEST(EveningsPage, HasACardForEachTeamOnEachEvening) {
    const std::string page = evenings_page(two_evenings(), clock_on_the_wall);
    EXPECT_EQ(count_of(page, "<section class=\"card\">"), 4U);
    EXPECT_EQ(count_of(page, "Provisional. Ask the leader"), 2U) << "the first evening is settled";
    EXPECT_EQ(count_of(page, "21:30–21:55"), 4U)
        << "the second post of team 1: on the cards and in the tables";
    EXPECT_EQ(count_of(page, "Gate closes:</b> 22:30"), 4U);
    EXPECT_EQ(count_of(page, "south-west, 225°; watch 120° of the circle"), 4U);
}

TEST(EveningsPage, SaysWhatTheEveningsWillAndWillNotShow) {
    const std::string page = evenings_page(two_evenings(), clock_on_the_wall);
    for (const char* words :
         {"after these evenings it will be 75 %",
          "7 trees that could hold a box stay unwatched or watched too little, most of them to the east",
          "Friday 26 June 2026, 20:15 to 22:00", "They never tell how many animals there are"})
        EXPECT_NE(page.find(words), std::string::npos) << words;
}

TEST(EveningsPage, EveryCardCarriesTheCautionsOfTheNight) {
    const std::string page = evenings_page(two_evenings(), clock_on_the_wall);
    for (const char* words :
         {"Never touch a bat. Bite or scratch: wash with soap and water for at least 15 minutes",
          "nor within 5 m of open water", "Nobody watches alone", "Under 18 only with a parent or guardian",
          "We walked this round by day,", "Go if: 10 °C or more at sunset, wind up to 5 m/s, dry."})
        EXPECT_GE(count_of(page, words), 4U) << words;
}

TEST(EveningsPage, HazardsAreNamedWhereTheMapsShowThemAndAreNoAssessment) {
    const std::string page = evenings_page(two_evenings(), clock_on_the_wall);
    EXPECT_NE(page.find("open water within 30 m"), std::string::npos);
    EXPECT_NE(page.find("Friday 12 June 2026: "), std::string::npos);
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
