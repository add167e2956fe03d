#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "io/scratch_folder.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/site_file.hpp"

namespace roostward::io {
namespace {

using std::chrono::hours, std::chrono::minutes;
using testing::put_text;
using testing::ScratchFolder;

const std::string shortest = R"([site]
name = "Alder Reach Park"
animal = "small-crevice-bat"
[inputs]
trees = "trees.csv"
)";

SiteFile read(const std::string& evenings, const std::vector<Override>& overrides = {}) {
    const ScratchFolder scratch;
    put_text(scratch / "site.toml", shortest + evenings);
    return read_site_file((scratch / "site.toml").string(), overrides);
}

std::string refusal(const std::string& evenings) {
    try {
        (void)read(evenings);
    } catch (const core::Error& error) {
        EXPECT_EQ(error.fault(), core::Fault::site_file);
        return error.what();
    }
    return "taken: " + evenings;
}

// The defaults of the brief for evenings, [C]: common practice, no source.
TEST(EveningsSettings, HaveDefaults) {
    const evenings::Settings settings = read("").evenings;
    EXPECT_TRUE(settings.days.empty() && settings.teams.empty());
    EXPECT_EQ(settings.every, std::chrono::days(7));
    EXPECT_FALSE(settings.posts || settings.farthest_seen || settings.gate_closes);
    EXPECT_EQ(settings.team_size, 2U);
    EXPECT_EQ(settings.seen_by, "eye");
    EXPECT_EQ(settings.walk_m_per_min, 50.0);
    EXPECT_EQ(settings.spare, 1U);
}

TEST(EveningsSettings, AreRead) {
    const evenings::Settings settings = read(R"([evenings]
days = ["fri", "sun"]
every_days = 10
posts = 3
team_size = 4
seen_by = "thermal"
farthest_seen_m = 75
walk_m_per_min = 40.5
spare = 0
gate_closes = "22:30"
permission_from = "Parks Department"
leader = "R. Kestrel"
[[evenings.team]]
name = "creek"
seen_by = "ear"
from = "21:00"
until = "00:30"
[[evenings.team]]
farthest_seen_m = 30
until = 23:15:00
)")
                                            .evenings;
    EXPECT_EQ(settings.days, (std::vector{std::chrono::Friday, std::chrono::Sunday}));
    EXPECT_EQ(settings.every, std::chrono::days(10));
    EXPECT_EQ(settings.posts, 3U);
    EXPECT_EQ(settings.team_size, 4U);
    EXPECT_EQ(settings.seen_by, "thermal");
    EXPECT_EQ(settings.farthest_seen, core::Metres(75.0));
    EXPECT_EQ(settings.walk_m_per_min, 40.5);
    EXPECT_EQ(settings.spare, 0U);
    EXPECT_EQ(settings.gate_closes, hours(22) + minutes(30));
    EXPECT_EQ(settings.permission_from, "Parks Department");
    EXPECT_EQ(settings.leader, "R. Kestrel");
    ASSERT_EQ(settings.teams.size(), 2U);
    EXPECT_EQ(settings.teams[0].name, "creek");
    EXPECT_EQ(settings.teams[0].seen_by, "ear");
    EXPECT_EQ(settings.teams[0].from, hours(21));
    EXPECT_EQ(settings.teams[0].until, minutes(30));
    EXPECT_EQ(settings.teams[1].name, "");
    EXPECT_EQ(settings.teams[1].farthest_seen, core::Metres(30.0));
    EXPECT_EQ(settings.teams[1].until, hours(23) + minutes(15)) << "TOML's own time of day";
}

TEST(EveningsSettings, BestPostsMayBeSaid) {
    EXPECT_FALSE(read("[evenings]\nposts = \"best\"\n").evenings.posts);
}

TEST(EveningsSettings, OfOneRunComeFromTheCommandLine) {
    const std::vector<Override> set{{"evenings.spare", "0"}, {"evenings.gate_closes", "23:00"}};
    const SiteFile site = read("[evenings]\nspare = 2\n", set);
    EXPECT_EQ(site.evenings.spare, 0U);
    EXPECT_EQ(site.evenings.gate_closes, hours(23));
}

TEST(EveningsSettings, SayKeyAndWhatIsAllowed) {
    struct Case {
        const char* text;
        std::vector<const char*> said;
    };
    const std::vector<Case> cases{
        {"[evenings]\ndays = [\"friday\"]\n", {"evenings.days", "\"fri\""}},
        {"[evenings]\ndays = []\n", {"evenings.days", "one or more"}},
        {"[evenings]\nevery_days = 0\n", {"evenings.every_days", "from 1 to 366"}},
        {"[evenings]\nposts = 7\n", {"evenings.posts", "from 1 to 6, or \"best\""}},
        {"[evenings]\nposts = 2.5\n", {"evenings.posts", "whole number"}},
        {"[evenings]\nposts = \"many\"\n", {"evenings.posts", "\"best\""}},
        {"[evenings]\nteam_size = 1\n", {"evenings.team_size", "from 2 to 20"}},
        {"[evenings]\nseen_by = \"radar\"\n", {"evenings.seen_by", "\"night-vision\""}},
        {"[evenings]\nfarthest_seen_m = 0\n", {"evenings.farthest_seen_m", "from 2 to 1000"}},
        {"[evenings]\nwalk_m_per_min = 500\n", {"evenings.walk_m_per_min", "from 5 to 150"}},
        {"[evenings]\nspare = -1\n", {"evenings.spare", "from 0 to 20"}},
        {"[evenings]\ngate_closes = \"dusk\"\n", {"evenings.gate_closes", "\"22:30\""}},
        {"[evenings]\ngate_closes = \"9:30\"\n", {"evenings.gate_closes", "\"00:30\" after midnight"}},
        {"[evenings]\ngate_closes = \"2026-06-12 22:30\"\n", {"evenings.gate_closes", "time of day"}},
        {"[evenings]\ngate_closes = 22\n", {"evenings.gate_closes", "time of day"}},
        {"[evenings]\nleader = \"\"\n", {"evenings.leader", "not empty"}},
        {"[evenings]\ngate_close = \"22:30\"\n", {"evenings.gate_close", "evenings.gate_closes"}},
        {"[evenings]\nteam = \"creek\"\n", {"evenings.team", "[[evenings.team]]"}},
        {"[[evenings.team]]\ncalled = \"creek\"\n", {"evenings.team[0].called", "nearest"}},
        {"[[evenings.team]]\nfrom = \"21:00\"\nuntil = \"20:30\"\n",
         {"evenings.team[0].until", "leave before"}},
        {"[[evenings.team]]\nname = \"Creek\"\n[[evenings.team]]\nname = \"creek\"\n",
         {"evenings.team[1].name", "two teams"}},
    };
    for (const Case& one : cases)
        for (const char* said : one.said) {
            const std::string text = refusal(one.text);
            EXPECT_NE(text.find(said), std::string::npos) << said << " not in: " << text;
        }
}

// They are told with the others, but change no plan: they must not be among the parameters that its number
// is made from.
TEST(EveningsSettings, AreToldApartFromThoseOfThePlan) {
    const SiteFile site = read("[evenings]\nspare = 2\n");
    const auto of_evenings = [](const siting::Parameter& p) { return p.key.starts_with("evenings."); };
    EXPECT_TRUE(std::ranges::none_of(site.settings.parameters, of_evenings));
    ASSERT_EQ(site.evenings_parameters.size(), 11U);
    EXPECT_TRUE(std::ranges::all_of(site.evenings_parameters, of_evenings));
    const auto spare = std::ranges::find(site.evenings_parameters, "evenings.spare", &siting::Parameter::key);
    EXPECT_EQ(spare->set_by, "site file");
    EXPECT_EQ(core::to_json(spare->value), "2");
    for (const siting::Parameter& parameter : site.evenings_parameters)
        EXPECT_FALSE(parameter.meaning.empty()) << parameter.key;
}

}  // namespace
}  // namespace roostward::io
