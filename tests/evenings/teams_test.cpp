#include "roostward/evenings/teams.hpp"

#include <gtest/gtest.h>

namespace roostward::evenings {
namespace {

TEST(Teams, ThoseNamedComeFirstAndTheOthersAreAsTheSettingsSay) {
    Settings settings;
    settings.farthest_seen = core::Metres(30.0);
    settings.teams = {{"bridge", "thermal", {}, {}, {}}};
    const std::vector<Team> teams = teams_of(settings, 2);
    ASSERT_EQ(teams.size(), 2U);
    EXPECT_EQ(teams[0].name, "bridge");
    EXPECT_EQ(teams[0].farthest_seen, usual_sight("thermal"));
    EXPECT_EQ(teams[1].name, "2");
    EXPECT_EQ(teams[1].seen_by, "eye");
    EXPECT_EQ(teams[1].farthest_seen, core::Metres(30.0));
}

TEST(Teams, FewerThanAreNamedAreTheFirstOfThem) {
    Settings settings;
    settings.teams = {{"a", {}, {}, {}, {}}, {"b", {}, {}, {}, {}}};
    const std::vector<Team> teams = teams_of(settings, 1);
    ASSERT_EQ(teams.size(), 1U);
    EXPECT_EQ(teams[0].name, "a");
}

}  // namespace
}  // namespace roostward::evenings
