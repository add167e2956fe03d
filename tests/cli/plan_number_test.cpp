// What a plan is called on paper.
#include <gtest/gtest.h>

#include <cctype>
#include <chrono>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>
#include <string>
#include <thread>

#include "cli/small_park.hpp"

namespace roostward {
namespace {

using nlohmann::json;
using testing::run_program;
using testing::text_of;

class PlanNumber : public testing::SmallPark {
 protected:
    std::string number_of(const std::string& site, const std::vector<std::string>& more = {}) {
        std::vector<std::string> words{"plan", site, "--out", (folder / "out").string(), "--json", "--quiet"};
        words.insert(words.end(), more.begin(), more.end());
        const testing::Ran ran = run_program(words);
        EXPECT_EQ(ran.exit_code, 0) << ran.err;
        return json::parse(ran.out)["number"];
    }
    std::string here(const std::vector<std::string>& more = {}) {
        return number_of((folder / "site.toml").string(), more);
    }
};

std::size_t times(const std::string& word, const std::string& text) {
    std::size_t count = 0;
    for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1))
        ++count;
    return count;
}

TEST_F(PlanNumber, IsEightHexadecimalDigits) {
    const std::string number = here();
    EXPECT_EQ(number.size(), 8U);
    for (const char digit : number)
        EXPECT_TRUE(std::isxdigit(static_cast<unsigned char>(digit)) != 0 && std::isupper(digit) == 0)
            << number;
}

TEST_F(PlanNumber, IsThatOfTheInputsWhereverTheyLie) {
    const testing::ScratchFolder elsewhere;
    for (const char* file : {"watches.csv", "trees.csv"})
        std::filesystem::copy_file(folder / file, elsewhere / file);
    std::filesystem::copy_file(folder / "passes.csv", elsewhere / "seen.csv");
    std::string site = text_of(folder / "site.toml");
    site.replace(site.find("passes.csv"), 10, "seen.csv");
    testing::put_text(elsewhere / "site.toml", "# Another name, and a remark.\n" + site);
    EXPECT_EQ(here(), number_of((elsewhere / "site.toml").string()));
    EXPECT_EQ(here(), here({"--threads", "1"}));
    EXPECT_EQ(here(), here({"--set", "inputs.trees={file=\"trees.csv\"}"}));
}

TEST_F(PlanNumber, IsAnotherWithAnotherSettingSeedOrFile) {
    std::set<std::string> numbers{here()};
    EXPECT_TRUE(numbers.insert(here({"--set", "choose.sites=2"})).second);
    EXPECT_TRUE(numbers.insert(here({"--seed", "2"})).second);
    EXPECT_TRUE(
        numbers.insert(here({"--set", "inputs.trees={file=\"trees.csv\",only=\"dbh_cm > 1\"}"})).second);
    testing::put_text(
        folder / "lines.geojson",
        R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{},"geometry":)"
        R"({"type":"LineString","coordinates":[[-1.9006,52.31],[-1.9,52.31]]}}]})");
    const std::string avoid = R"(avoid=[{file="lines.geojson",reason="power line",within_m=)";
    EXPECT_TRUE(numbers.insert(here({"--set", avoid + "10}]"})).second);
    EXPECT_TRUE(numbers.insert(here({"--set", avoid + "20}]"})).second);
    testing::put_text(folder / "passes.csv", passes(39));
    EXPECT_TRUE(numbers.insert(here()).second);
}

// Where and when people will stand changes no tree's score.
TEST_F(PlanNumber, IsTheSameWhateverIsSaidOfEveningsToCome) {
    testing::put_text(folder / "stations.csv", "name,lon,lat\nbridge,-1.9,52.3\n");
    EXPECT_EQ(here(), here({"--set", "evenings.spare=3", "--set", "inputs.stations=\"stations.csv\""}));
    EXPECT_EQ(here(), here({"--set", "inputs.stations={file=\"stations.csv\",fields={name=\"name\"}}"}));
}

// Without SOURCE_DATE_EPOCH, whose second is the same for both.
TEST_F(PlanNumber, TwoRunsDifferOnlyInWhenTheyWereMade) {
    ::unsetenv("SOURCE_DATE_EPOCH");
    const auto files_of_a_run = [&] {
        EXPECT_EQ(plan().exit_code, 0);
        return testing::bytes_of(folder / "out");
    };
    auto first = files_of_a_run();
    std::this_thread::sleep_for(std::chrono::seconds(1));
    auto second = files_of_a_run();
    ASSERT_EQ(first.size(), second.size());
    for (std::size_t i = 0; i < first.size(); ++i) {
        if (first[i].first == "plan.json") {
            EXPECT_NE(first[i].second, second[i].second);
            for (auto* text : {&first[i].second, &second[i].second})
                *text = std::regex_replace(*text, std::regex(R"("made_at": "[^"]*")"), "");
        }
        EXPECT_TRUE(first[i] == second[i]) << first[i].first;
    }
}

// SOURCE_DATE_EPOCH says when, to the second: reproducible-builds.org, "SOURCE_DATE_EPOCH specification".
TEST_F(PlanNumber, WhenItWasMadeCanBeTold) {
    ::setenv("SOURCE_DATE_EPOCH", "1000000000", 1);
    EXPECT_EQ(plan().exit_code, 0);
    ::unsetenv("SOURCE_DATE_EPOCH");
    EXPECT_EQ(json::parse(text_of(folder / "out/plan.json"))["made_at"], "2001-09-09T01:46:40Z");
    EXPECT_NE(text_of(folder / "out/chosen_sites.gpx").find("<time>2001-09-09T01:46:40Z</time>"),
              std::string::npos);
}

TEST_F(PlanNumber, StandsOnEverythingThatPeopleHold) {
    const testing::Ran ran = plan();
    const json document = json::parse(text_of(folder / "out/plan.json"));
    const std::string number = document["number"], told = "plan " + number;
    EXPECT_NE(ran.out.find(told), std::string::npos) << ran.out;
    const std::string gpx = text_of(folder / "out/chosen_sites.gpx");
    EXPECT_LT(gpx.find(number), gpx.find("</metadata>")) << gpx;
    const std::string table = text_of(folder / "out/boxes_to_hang.csv");
    EXPECT_EQ(times("," + number + "\r\n", table), times("\r\n", table) - 1) << table;
    const std::string page = text_of(folder / "out/report.html");
    EXPECT_EQ(times(told, page), times("<article class=\"paper", page) + 1) << "each sheet, and the head";
    const testing::Ran why = run_program({"why", (folder / "out").string(), "T4"});
    EXPECT_NE(why.out.find(told), std::string::npos) << why.out;
    const testing::Ran compared =
        run_program({"compare", (folder / "out").string(), (folder / "out").string()});
    EXPECT_EQ(times(told, compared.out), 2U) << compared.out;
}

}  // namespace
}  // namespace roostward
