#include "roostward/report/before_you_start.hpp"

#include <gtest/gtest.h>

#include "report/two_evenings.hpp"
#include "roostward/report/evenings_page.hpp"

namespace roostward::report {
namespace {

// What people read before the first evening and what they hold in the dark must not differ.
TEST(BeforeYouStart, SaysWhatTheCardsSay) {
    const plan::EveningsPlan plan = testing::two_evenings();
    const std::string cards = evenings_page(plan, [](core::Instant) { return "21:00"; }),
                      before = before_you_start();
    for (const char* words :
         {"10 °C or more at sunset, wind up to 5 m/s, dry", "for at least 15 minutes and seek urgent care",
          "nor within 5 m of open water", "Never stand on a carriageway or railway", "below 6 °C",
          "Under 18 only with a parent or guardian, in a team with two adults or more",
          "Nobody watches alone", "In every team two people or more, two of them adults",
          "tell a licensed bat person", "Leave together, at once", "no dead branches over you", "by day"}) {
        EXPECT_NE(cards.find(words), std::string::npos) << words;
        EXPECT_NE(before.find(words), std::string::npos) << words;
    }
}

}  // namespace
}  // namespace roostward::report
