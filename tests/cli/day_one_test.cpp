// What a volunteer, a consultant, a council's officer and a climber ask on the first day, answered from the
// demo's outputs alone.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <memory>
#include <nlohmann/json.hpp>

#include "cli/program.hpp"

namespace roostward {
namespace {

using nlohmann::json;
using testing::run_program;
using testing::ScratchFolder;

class DayOne : public ::testing::Test {
 protected:
    static void SetUpTestSuite() {
        folder = std::make_unique<ScratchFolder>();
        ran =
            run_program({"plan", (testing::demo() / "site.toml").string(), "--out", out("plan"), "--quiet"});
        ASSERT_EQ(ran.exit_code, 0) << ran.err;
        plan = json::parse(testing::text_of(*folder / "plan/plan.json"));
        for (const char* const file : {"ranked_sites.geojson", "other_trees.geojson"}) {
            const json layer = json::parse(testing::text_of(*folder / "plan" / file));
            for (const json& feature : layer["features"])
                trees[feature["properties"]["tree"].get<std::string>()] = feature["properties"];
        }
    }
    static void TearDownTestSuite() { folder.reset(); }

    static std::string out(const std::string& name) { return (*folder / name).string(); }
    static std::string why(const std::string& tree) { return run_program({"why", out("plan"), tree}).out; }
    static const json& sites() { return plan["summary"]["sites"]; }

    static std::unique_ptr<ScratchFolder> folder;
    static testing::Ran ran;
    static json plan;
    static std::map<std::string, json> trees;
};
std::unique_ptr<ScratchFolder> DayOne::folder;
testing::Ran DayOne::ran;
json DayOne::plan;
std::map<std::string, json> DayOne::trees;

bool has(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

/// The lines of a text, without their breaks.
std::string in_one_line(std::string text) {
    std::ranges::replace(text, '\n', ' ');
    for (std::size_t at = text.find("  "); at != std::string::npos; at = text.find("  "))
        text.erase(at, 1);
    return text;
}

TEST_F(DayOne, TheTerminalTellsTheStoryIn25Lines) {
    EXPECT_LE(std::ranges::count(ran.out, '\n'), 25) << ran.out;
    EXPECT_TRUE(has(ran.out, "6 sites chosen")) << ran.out;
    EXPECT_TRUE(has(ran.out, "every line counts as live")) << ran.out;
    EXPECT_TRUE(has(ran.out, "report.html")) << ran.out;
}

TEST_F(DayOne, VolunteerWhereDoesTheFirstBoxGo) {
    const json& first = sites().at(0);
    EXPECT_GE(first["mount_height_m"].get<double>(), 4.0);
    EXPECT_EQ(first["facings_deg"].size(), 2U);
    EXPECT_GT(first["flights_per_hour"].get<double>(), 0.0);
    EXPECT_TRUE(has(testing::text_of(*folder / "plan/report.html"), first["tree"].get<std::string>()));
}

TEST_F(DayOne, VolunteerMayIHangItNowAndMayILookInside) {
    EXPECT_TRUE(has(plan["hanging"]["when"].get<std::string>(), "September to February"));
    EXPECT_TRUE(has(plan["cautions"].dump(), "Opening or moving a box may need a licence."));
    EXPECT_FALSE(plan["hanging"]["before_you_hang_it"].empty());
}

TEST_F(DayOne, ConsultantWhyThisTreeAndNotItsNeighbour) {
    const std::string text = in_one_line(why("0303"));
    EXPECT_TRUE(has(text, "22 m from site 1 (0155), closer than 25 m")) << text;
    EXPECT_TRUE(has(text,
                    "0155, 22 m to the NW: site 1, rank 1 of 46. It scores 90 against 70 here: more by "
                    "flight density"))
        << text;
}

TEST_F(DayOne, ConsultantScoresAddUp) {
    const json& scored = plan["summary"]["scores"]["trees"];
    EXPECT_GT(scored.size(), 46U) << "those to settle first as well";
    for (const json& tree : scored) {
        double sum = 0.0;
        for (const json& part : tree["parts"])
            sum += part["contribution"].get<double>();
        EXPECT_NEAR(sum, tree["score"].get<double>(), 2e-6) << tree["tree"];
    }
}

TEST_F(DayOne, ConsultantWhatDrivesTheResult) {
    std::map<std::string, std::string> most;
    for (const json& influence : plan["summary"]["certainty"]["strongest_influences"])
        most[influence["left_out"].get<std::string>()] = influence["name"].get<std::string>();
    EXPECT_EQ(most["evening"], "2026-06-09");
    EXPECT_EQ(most["observer"], "D") << "R.K., by observers.csv";
    EXPECT_EQ(most["station"], "footbridge-1");
    const std::string sentences = plan["summary"]["what_if"]["sentences"].dump();
    for (const char* const change :
         {"the dark counted", "a trunk had to be", "apart instead of", "to either side"})
        EXPECT_TRUE(has(sentences, change)) << change;
}

TEST_F(DayOne, ConsultantCouldAnotherSetBeBetter) {
    const json& choice = plan["summary"]["choice"];
    EXPECT_TRUE(choice["proven"].get<bool>());
    EXPECT_EQ(choice["gap"].get<double>(), 0.0);
}

TEST_F(DayOne, ConsultantWhoseNumbersAreTheDefaults) {
    for (const json& parameter : plan["parameters"]) {
        EXPECT_FALSE(parameter["status"].get<std::string>().empty()) << parameter["key"];
        EXPECT_FALSE(parameter["set_by"].get<std::string>().empty()) << parameter["key"];
        if (parameter["status"] == "published") {
            EXPECT_TRUE(parameter["source"].is_string()) << parameter["key"];
        }
    }
}

TEST_F(DayOne, ConsultantCanIRepeatIt) {
    const std::string command = plan["repeat"].get<std::string>();
    EXPECT_EQ(command, "roostward plan " + (testing::demo() / "site.toml").string() + " --out DIR --seed 1");
    const auto again = run_program(
        {"plan", (testing::demo() / "site.toml").string(), "--out", out("again"), "--seed", "1", "--quiet"});
    ASSERT_EQ(again.exit_code, 0) << again.err;
    for (const char* const file :
         {"ranked_sites.geojson", "other_trees.geojson", "report.html", "boxes_to_hang.csv"})
        EXPECT_EQ(testing::text_of(*folder / "plan" / file), testing::text_of(*folder / "again" / file))
            << file;
    for (const json& input : plan["inputs"])
        EXPECT_EQ(input["sha256"].get<std::string>().size(), 64U) << input["file"];
}

TEST_F(DayOne, ConsultantWhatCanThisSurveyNotShow) {
    const std::string points = plan["summary"]["weak_points"].dump();
    EXPECT_TRUE(has(points, "not watched long enough")) << points;
    EXPECT_TRUE(has(points, "other seasons may differ")) << points;
}

TEST_F(DayOne, OfficerWhichToInspectAndWhichToSettleAndByWhom) {
    const std::string list = testing::text_of(*folder / "plan/boxes_to_hang.csv");
    for (const json& site : sites())
        EXPECT_TRUE(has(list, "," + site["tree"].get<std::string>() + ",")) << site["tree"];
    for (const json& tree : plan["summary"]["worth_settling"])
        for (const json& question : tree["questions"]) {
            EXPECT_FALSE(question["who"].get<std::string>().empty()) << tree["tree"];
            EXPECT_FALSE(question["ask"].get<std::string>().empty()) << tree["tree"];
        }
}

TEST_F(DayOne, OfficerHowManyAreRuledOutByWhichRule) {
    std::map<std::string, std::size_t> counted;
    for (const auto& [tag, tree] : trees)
        if (tree.contains("reasons"))
            for (const json& reason : tree["reasons"])
                if (reason["state"] == "ruled out") ++counted[reason["rule"].get<std::string>()];
    std::map<std::string, std::size_t> told;
    for (const auto& [rule, count] : plan["summary"]["ruled_out_by"].items())
        told[rule] = count.get<std::size_t>();
    EXPECT_EQ(told, counted);
}

TEST_F(DayOne, OfficerHowFarIsThePowerLine) {
    for (const json& site : sites()) {
        const json& away = trees.at(site["tree"].get<std::string>())["keep_away"].at(0);
        EXPECT_EQ(away["from"], "overhead power line");
        EXPECT_GT(away["crown_edge_m"].get<double>(), away["more_than_m"].get<double>()) << site["tree"];
    }
    EXPECT_TRUE(has(in_one_line(why("0155")), "overhead power line: 170 m from the crown's edge"));
}

TEST_F(DayOne, ClimberWhichTreeNextIfThisOneIsUnsafe) {
    for (const json& site : sites()) {
        ASSERT_TRUE(site["reserve"].is_object()) << site["tree"];
        const std::string next = site["reserve"]["tree"].get<std::string>();
        EXPECT_FALSE(trees.at(next)["chosen"].get<bool>());
        EXPECT_TRUE(trees.at(next)["enough_evidence"].get<bool>());
    }
}

TEST_F(DayOne, OfficerWhatDoITakeOnForTheYearsAfter) {
    const std::string owner = plan["owner"].get<std::string>();
    EXPECT_TRUE(has(owner, "A box lasts five to six years")) << owner;
    EXPECT_TRUE(has(owner, "name now who will see to that")) << owner;
}

TEST_F(DayOne, ClimberWhatDoISendBack) {
    const std::string list = testing::text_of(*folder / "plan/boxes_to_hang.csv");
    const std::string header = list.substr(0, list.find('\r'));
    for (const char* const blank : {"hung", "status", "note"})
        EXPECT_TRUE(has(header, blank)) << header;
    EXPECT_EQ(std::ranges::count(list, '\n'), 1 + 2 * 6) << "two boxes a site";
}

}  // namespace
}  // namespace roostward
