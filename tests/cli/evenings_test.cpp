// Evenings to come, planned by the program as people run it.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <memory>
#include <nlohmann/json.hpp>
#include <set>

#include "cli/csv_table.hpp"

namespace roostward {
namespace {

using nlohmann::json;
using testing::Ran;
using testing::run_program;
using testing::ScratchFolder;

bool has(const std::string& text, std::string_view words) {
    return text.find(words) != std::string::npos;
}

void take_out(std::string& site, const std::string& layer) {
    const std::size_t line = site.find("\n" + layer + " ");
    ASSERT_NE(line, std::string::npos) << layer;
    site.erase(line, site.find('\n', line + 1) - line);
}

class Evenings : public ::testing::Test {
 protected:
    static void SetUpTestSuite() {
        scratch = std::make_unique<ScratchFolder>();
        testing::copy_demo(*scratch);
        std::string site = testing::text_of(*scratch / "site.toml");
        for (const char* layer : {"passes", "tracks", "tallies", "routes", "watches"})
            take_out(site, layer);
        testing::put_text(*scratch / "before.toml", site);
        first = run("first", {}, "before.toml");
    }
    static void TearDownTestSuite() { scratch.reset(); }

    /// Three evenings of two teams unless told otherwise.
    static Ran run(const std::string& folder, const std::vector<std::string>& more,
                   const std::string& site = "site.toml") {
        std::vector<std::string> words{"evenings", (*scratch / site).string(), "--out",
                                       (*scratch / folder).string(), "--quiet"};
        const auto given = [&](const char* option) { return std::ranges::find(more, option) != more.end(); };
        for (const auto& [option, value] :
             {std::pair{"--start", "2026-07-03"}, {"--count", "3"}, {"--teams", "2"}})
            if (!given(option)) words.insert(words.end(), {option, value});
        words.insert(words.end(), more.begin(), more.end());
        return run_program(words);
    }
    static json index_of(const std::string& folder) {
        return json::parse(testing::text_of(*scratch / folder / "evenings.json"));
    }
    static std::string refusal(const std::vector<std::string>& more, int exit_code,
                               const std::string& site = "site.toml") {
        const Ran ran = run("refused", more, site);
        EXPECT_EQ(ran.exit_code, exit_code) << ran.err;
        EXPECT_FALSE(std::filesystem::exists(*scratch / "refused")) << "nothing half written";
        return ran.err;
    }

    static inline std::unique_ptr<ScratchFolder> scratch;
    static inline Ran first;
};

TEST_F(Evenings, WritesEveryFileOfTheContract) {
    ASSERT_EQ(first.exit_code, 0) << first.err;
    std::set<std::string> names;
    for (const auto& [name, bytes] : testing::bytes_of(*scratch / "first"))
        names.insert(name);
    EXPECT_EQ(names, (std::set<std::string>{"evenings.csv", "evenings.html", "evenings.ics", "evenings.json",
                                            "passes.csv", "passes.xlsx", "stations.geojson", "stations.gpx",
                                            "watches.csv", "watches.xlsx"}));
    const json index = index_of("first");
    ASSERT_EQ(index["after"].size(), 3U);
    double before = 0.0;
    for (const json& after : index["after"]) {
        EXPECT_GE(after["share"].get<double>(), before);
        before = after["share"];
    }
    EXPECT_GT(before, 0.15);
    EXPECT_EQ(index["after"][0]["evening"], "2026-07-03");
    EXPECT_EQ(index["after"][2]["evening"], "2026-07-17");
    EXPECT_TRUE(has(first.out, "Friday 3 July 2026"));
    EXPECT_TRUE(has(first.out, "Never watch alone"));
}

TEST_F(Evenings, StartsFromTheVerdictsOfTheScreening) {
    const Ran screened = run_program(
        {"plan", (*scratch / "before.toml").string(), "--out", (*scratch / "screened").string(), "--quiet"});
    ASSERT_EQ(screened.exit_code, 0) << screened.err;
    const json trees = json::parse(testing::text_of(*scratch / "screened/other_trees.geojson"));
    const auto open = std::ranges::count_if(trees["features"], [](const json& tree) {
        const json& could = tree["properties"]["could_hold_box"];
        return could.is_null() || could == true;
    });
    EXPECT_EQ(index_of("first")["trees"], open) << "that could hold a box, now or once something is settled";
}

TEST_F(Evenings, PostsKeepToTheHoursAndToTheTeams) {
    testing::CsvTable posts(*scratch / "first/evenings.csv");
    ASSERT_GE(posts.rows.size(), 12U) << "two posts and more for each team and evening";
    std::map<std::string, std::string> until;
    for (std::size_t i = 0; i < posts.rows.size(); ++i) {
        const std::string start = posts.at(i, "start"), end = posts.at(i, "end");
        EXPECT_LT(start, end);
        EXPECT_TRUE(has(start, "+01:00"));
        std::string& before = until[posts.at(i, "evening") + posts.at(i, "team")];
        EXPECT_LT(before, start) << "one after the other";
        before = end;
        // The sun sets at 21:32, 21:28 and 21:21; bats of the profile begin 15 min later.
        EXPECT_GE(start.substr(11, 5), "21:25");
        EXPECT_LE(end.substr(11, 5), "23:02");
        EXPECT_FALSE(posts.at(i, "why").empty());
        EXPECT_EQ(posts.at(i, "provisional"), posts.at(i, "evening") == "2026-07-03" ? "no" : "yes");
    }
}

TEST_F(Evenings, GivesTheSameBytesForAnyNumberOfThreadsAndAgain) {
    for (const auto& [folder, threads] : {std::pair{"one", "1"}, {"two", "2"}, {"again", "2"}})
        ASSERT_EQ(run(folder, {"--threads", threads}).exit_code, 0);
    const auto but_the_index = [](const std::string& folder) {
        auto bytes = testing::bytes_of(*scratch / folder);
        std::erase_if(bytes, [](const auto& file) { return file.first == "evenings.json"; });
        return bytes;
    };
    const auto without_time = [](const std::string& folder) {
        json index = index_of(folder);
        index.erase("made_at");
        return index;
    };
    for (const char* other : {"two", "again"}) {
        EXPECT_EQ(but_the_index(other), but_the_index("one"));
        EXPECT_EQ(without_time(other), without_time("one"));
    }
}

TEST_F(Evenings, HeedsWhatWasSeenSoFar) {
    const Ran ran = run("heeding", {});
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    const json before = index_of("first"), after = index_of("heeding");
    EXPECT_EQ(before["share_before"], 0.0);
    EXPECT_GT(after["share_before"].get<double>(), 0.3);
    EXPECT_FALSE(has(testing::text_of(*scratch / "first/evenings.html"),
                     "Trees that would get a box if you stopped now"));
    EXPECT_TRUE(has(testing::text_of(*scratch / "heeding/evenings.html"),
                    "Trees that would get a box if you stopped now"));
}

TEST_F(Evenings, ThePlansPageSaysWhatTheNextWouldBeWorth) {
    const Ran ran = run_program(
        {"plan", (*scratch / "site.toml").string(), "--out", (*scratch / "planned").string(), "--quiet"});
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    const std::string page = testing::text_of(*scratch / "planned/report.html");
    EXPECT_TRUE(has(page, "What the next evening would be worth"));
    ASSERT_EQ(run("one-more", {"--count", "1"}).exit_code, 0);
    const double before = index_of("one-more")["share_before"];
    EXPECT_TRUE(has(page, fmt::format("instead of {:.0f} %", 100.0 * before)))
        << "the same trees, the same hours";
}

TEST_F(Evenings, ComesFullCircle) {
    // The first evening is held by one team; one bat passes.
    const std::string site = testing::text_of(*scratch / "before.toml");
    const auto inputs = site.find("[inputs]\n") + 9;
    testing::put_text(*scratch / "after.toml",
                      site.substr(0, inputs) +
                          "watches = \"held-watches.csv\"\npasses = \"held-passes.csv\"\n" +
                          site.substr(inputs));
    testing::CsvTable watches(*scratch / "first/watches.csv"), passes(*scratch / "first/passes.csv");
    watches.at(0, "start") = "21:40";
    watches.at(0, "end") = "22:40";
    testing::put_text(*scratch / "held-watches.csv", watches.text());
    testing::put_text(*scratch / "held-passes.csv", passes.text());
    const Ran nothing = run("nothing-seen", {"--start", "2026-07-10"}, "after.toml");
    ASSERT_EQ(nothing.exit_code, 0) << nothing.err;
    EXPECT_GT(index_of("nothing-seen")["share_before"].get<double>(), 0.0) << "a watch without a pass";
    passes.at(0, "time") = "21:55";
    passes.at(0, "distance_m") = "10";
    passes.at(0, "direction") = "N";
    testing::put_text(*scratch / "held-passes.csv", passes.text());
    const Ran one = run("one-seen", {"--start", "2026-07-10"}, "after.toml");
    ASSERT_EQ(one.exit_code, 0) << one.err;
    EXPECT_EQ(index_of("one-seen")["share_before"], index_of("nothing-seen")["share_before"]);
}

TEST_F(Evenings, KeepsWhatPeopleWroteInTheFolder) {
    ASSERT_EQ(run("kept", {}).exit_code, 0);
    testing::put_text(*scratch / "kept/watches.csv",
                      testing::text_of(*scratch / "kept/watches.csv") + "a note,,,\n");
    const Ran refused = run("kept", {});
    EXPECT_EQ(refused.exit_code, 2);
    EXPECT_TRUE(has(refused.err, "watches.csv")) << refused.err;
    ASSERT_EQ(run("kept", {"--force"}).exit_code, 0);
    EXPECT_TRUE(has(testing::text_of(*scratch / "kept/kept/watches.csv.1"), "a note"));
    EXPECT_TRUE(has(index_of("kept")["kept"].dump(), "watches.csv"));
}

TEST_F(Evenings, NonsenseIsToldInASentence) {
    EXPECT_TRUE(has(refusal({"--start", "soon"}, 2), "\"soon\" is no date"));
    EXPECT_TRUE(has(refusal({"--start", "2026-07-03T21:00"}, 2), "is no date"));
    EXPECT_TRUE(has(refusal({"--start", "2038-06-01"}, 2), "2037"));
    EXPECT_TRUE(has(refusal({"--start", "2037-12-28", "--anyway"}, 2), "2037"));
    EXPECT_TRUE(has(refusal({"--teams", "0"}, 2), "0 teams"));
    EXPECT_TRUE(has(refusal({"--count", "0"}, 2), "0 evenings"));
    EXPECT_TRUE(has(refusal({"--start", "2026-12-24"}, 2), "active season"));
    EXPECT_TRUE(has(refusal({"--set", "evenings.gate_closes=21:30"}, 2), "gate"));
    EXPECT_TRUE(has(refusal({"--set", "evenings.posts=7"}, 2), "posts"));
    testing::put_text(*scratch / "far.geojson",
                      R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{},)"
                      R"("geometry":{"type":"Point","coordinates":[-1.90,52.32]}}]})");
    EXPECT_FALSE(refusal({"--set", "inputs.stations=\"far.geojson\""}, 3).empty());
    testing::put_text(
        *scratch / "two.geojson",
        R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{"name":"oak"},)"
        R"("geometry":{"type":"Point","coordinates":[-1.8978,52.2993]}}]})");
    EXPECT_TRUE(has(refusal({"--set", "inputs.stations=\"two.geojson\""}, 3), "2 teams are more than"));
    testing::put_text(*scratch / "flooded.geojson",
                      R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{},)"
                      R"("geometry":{"type":"Polygon","coordinates":[[[-2,52.2],[-1.8,52.2],[-1.8,52.4],)"
                      R"([-2,52.4],[-2,52.2]]]}}]})");
    EXPECT_TRUE(has(refusal({"--set", "inputs.water=\"flooded.geojson\""}, 3), "nobody can stand"));
}

TEST_F(Evenings, TheMidnightSunIsToldApart) {
    testing::put_text(*scratch / "north.csv",
                      "tree,lon,lat,dbh_cm,height_m,condition\n1,25.0,70.0,60,12,good\n");
    testing::put_text(*scratch / "north.toml",
                      "[site]\nname = \"North\"\ntimezone = \"Europe/Oslo\"\nanimal = \"small-crevice-bat\"\n"
                      "[inputs]\ntrees = \"north.csv\"\n");
    EXPECT_TRUE(has(refusal({"--start", "2026-06-12", "--teams", "1"}, 2, "north.toml"), "does not set"));
    EXPECT_TRUE(has(refusal({"--start", "2026-09-12", "--set", "suitability.min_dbh_cm=90"}, 3, "north.toml"),
                    "no tree could hold a box"));
}

}  // namespace
}  // namespace roostward
