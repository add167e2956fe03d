#include "known_roosts.hpp"

#include <gtest/gtest.h>

namespace roostward::plan {
namespace {

using survey::AnimalGroup;

TEST(KnownRoosts, OfOtherAnimalsAreApartAndOwlsAreNeighbours) {
    survey::Settings settings;
    settings.animals.groups = {{"bat", "bat", AnimalGroup::Is::animal, true, {"bat"}},
                               {"large bat", "bat", AnimalGroup::Is::animal, false, {"noctule"}},
                               {"owl", "owl", AnimalGroup::Is::animal, true, {"owl"}},
                               {"bird", "bird", AnimalGroup::Is::animal, true, {"bird"}}};
    settings.animals.counted = {"bat"};
    settings.keep_from = {"owl"};
    core::Records<trees::KnownRoost> roosts{"roosts.csv", "roosts", {}, 6};
    for (const char* animal : {"", "bat", "Noctule", "owl", "bird", "who knows"}) {
        trees::KnownRoost roost;
        roost.row = roosts.rows.size() + 2;
        roost.animal = animal;
        roosts.rows.push_back(roost);
    }
    const SortedRoosts sorted = sorted_roosts(roosts, settings);
    ASSERT_EQ(sorted.kept.rows.size(), 4U)
        << "another bat's roost is one too, and so may be an unknown one's";
    ASSERT_EQ(sorted.neighbours.size(), 1U);
    EXPECT_TRUE(sorted.neighbours[0].perched);
    ASSERT_EQ(sorted.findings.size(), 2U);
    EXPECT_EQ(sorted.findings[0].severity, core::Severity::apart);
    EXPECT_EQ(sorted.findings[0].value, "bird");
    EXPECT_EQ(sorted.findings[1].value, "owl");
}

}  // namespace
}  // namespace roostward::plan
