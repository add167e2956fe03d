// Before anybody has watched: which trees could hold a box, which to settle and with whom, which are ruled
// out. What must be said of the demo's trees stands in data/demo/README.md.
#include <gtest/gtest.h>

#include <map>
#include <memory>
#include <nlohmann/json.hpp>
#include <set>

#include "cli/small_park.hpp"

namespace roostward {
namespace {

using nlohmann::json;
using testing::Ran;
using testing::run_program;
using testing::ScratchFolder;

/// The demo without what was seen.
std::string without_sightings(std::string site) {
    for (const char* layer : {"passes ", "tracks ", "tallies ", "routes "}) {
        const std::size_t line = site.find(std::string("\n") + layer);
        if (line != std::string::npos) site.erase(line, site.find('\n', line + 1) - line);
    }
    return site;
}

bool has(const std::string& text, std::string_view words) {
    return text.find(words) != std::string::npos;
}

class Screening : public ::testing::Test {
 protected:
    static void SetUpTestSuite() {
        scratch = std::make_unique<ScratchFolder>();
        testing::copy_demo(*scratch);
        whole = plan("whole", {});
        const std::string site = testing::text_of(*scratch / "site.toml");
        testing::put_text(*scratch / "site.toml", without_sightings(site));
        screened = plan("screened", {});
    }
    static void TearDownTestSuite() { scratch.reset(); }

    static Ran plan(const std::string& folder, const std::vector<std::string>& more) {
        std::vector<std::string> words{"plan", (*scratch / "site.toml").string(), "--out",
                                       (*scratch / folder).string(), "--quiet"};
        words.insert(words.end(), more.begin(), more.end());
        return run_program(words);
    }
    static json read(const std::string& folder, const char* file) {
        return json::parse(testing::text_of(*scratch / folder / file));
    }
    static std::map<std::string, json> trees_of(const std::string& folder, const char* file) {
        std::map<std::string, json> trees;
        const json layer = read(folder, file);
        for (const json& feature : layer["features"])
            trees[feature["properties"]["tree"]] = feature["properties"];
        return trees;
    }

    static inline std::unique_ptr<ScratchFolder> scratch;
    static inline Ran whole, screened;
};

TEST_F(Screening, RanksNothingAndEndsWell) {
    ASSERT_EQ(screened.exit_code, 0) << screened.err;
    EXPECT_TRUE(read("screened", "ranked_sites.geojson")["features"].empty());
    EXPECT_EQ(read("screened", "other_trees.geojson")["features"].size(), 399U);
    std::set<std::string> names;
    for (const auto& [name, bytes] : testing::bytes_of(*scratch / "screened"))
        names.insert(name);
    EXPECT_EQ(names, (std::set<std::string>{"findings.csv", "other_trees.geojson", "plan.gpkg", "plan.json",
                                            "ranked_sites.geojson", "report.html"}));
}

TEST_F(Screening, JudgesTreesAsTheWholePlanDoes) {
    const auto before = trees_of("screened", "other_trees.geojson");
    auto after = trees_of("whole", "other_trees.geojson");
    after.merge(trees_of("whole", "ranked_sites.geojson"));
    ASSERT_EQ(before.size(), after.size());
    std::size_t could = 0;
    for (const auto& [tag, tree] : before) {
        const std::string now = after[tag].value("state", "can be chosen");
        EXPECT_EQ(tree["state"] == "ruled out", now == "ruled out") << tag;
        EXPECT_EQ(tree["could_hold_box"], tree["state"] == "not watched"    ? json(true)
                                          : tree["state"] == "settle first" ? json()
                                                                            : json(false))
            << tag;
        EXPECT_TRUE(now != "can be chosen" || tree["could_hold_box"] == true) << tag;
        EXPECT_TRUE(now != "settle first" || tree["could_hold_box"] == json()) << tag;
        could += tree["could_hold_box"] == true ? 1U : 0U;
    }
    const json summary = read("screened", "plan.json")["summary"];
    EXPECT_EQ(summary["screening"], true);
    EXPECT_EQ(summary["could_hold_box"], could);
    EXPECT_GT(could, 0U);
}

TEST_F(Screening, FallsIntoNoTrapOfTheDemo) {
    const auto trees = trees_of("screened", "other_trees.geojson");
    EXPECT_EQ(trees.at("0101")["who"], "licensed bat person") << "a known roost";
    EXPECT_EQ(trees.at("0102")["state"], "settle first") << "to be felled";
    EXPECT_EQ(trees.at("0103")["state"], "ruled out") << "a lamp";
    EXPECT_NE(trees.at("0105")["could_hold_box"], true) << "its owner refuses";
    EXPECT_EQ(trees.at("0106")["state"], "ruled out") << "the power line";
    EXPECT_EQ(trees.at("0117")["who"], "surveyor") << "its height is blank";
    EXPECT_EQ(trees.at("0155")["could_hold_box"], true) << "site 1 of the whole plan";
}

TEST_F(Screening, TellsItInAFewLinesAndSaysWhatComesNext) {
    EXPECT_LE(std::ranges::count(screened.out, '\n'), 20) << screened.out;
    for (const char* words : {"A screening: no passes are given yet", "of 399 trees could hold a box.",
                              "once somebody decides: surveyor", "are ruled out: trunk too thin",
                              "Next: watch on three evenings", "Never touch a bat."})
        EXPECT_TRUE(has(screened.out, words)) << words << " not in " << screened.out;
    EXPECT_TRUE(has(testing::text_of(*scratch / "screened/findings.csv"), "watches without passes"));
}

TEST_F(Screening, ThePageNeedsNoScriptsAndShowsEachTreeToSettle) {
    const std::string page = testing::text_of(*scratch / "screened/report.html");
    EXPECT_FALSE(has(page, "<script"));
    EXPECT_TRUE(has(page, "Map of all trees: which could hold a box"));
    for (const auto& [tag, tree] : trees_of("screened", "other_trees.geojson"))
        EXPECT_TRUE(tree["state"] != "settle first" || has(page, "<bdi>" + tag + "</bdi>")) << tag;
}

TEST_F(Screening, WhyAndCompareKnowThatNobodyHadWatched) {
    const auto folder = [](const char* name) { return (*scratch / name).string(); };
    const Ran why = run_program({"why", folder("screened"), "0155"});
    EXPECT_EQ(why.exit_code, 0) << why.err;
    EXPECT_TRUE(has(why.out, "No passes are given yet. By what the files tell it could hold")) << why.out;
    const Ran to_settle = run_program({"why", folder("screened"), "0101"});
    EXPECT_TRUE(has(to_settle.out, "Ask the licensed")) << to_settle.out;
    EXPECT_FALSE(has(to_settle.out, "Too little evidence")) << to_settle.out;
    const Ran moved = run_program({"compare", folder("screened"), folder("whole")});
    EXPECT_TRUE(has(moved.out, "(a screening: no passes were given)")) << moved.out;
    EXPECT_TRUE(has(moved.out, "0155 is site 1")) << moved.out;
}

TEST_F(Screening, SameBytesForAnyNumberOfThreads) {
    ASSERT_EQ(plan("one", {"--threads", "1"}).exit_code, 0);
    ASSERT_EQ(plan("seven", {"--threads", "7"}).exit_code, 0);
    auto one = testing::bytes_of(*scratch / "one"), seven = testing::bytes_of(*scratch / "seven");
    ASSERT_EQ(one.size(), seven.size());
    for (std::size_t i = 0; i < one.size(); ++i)
        EXPECT_TRUE(one[i].first == "plan.json" || one[i].second == seven[i].second) << one[i].first;
}

TEST_F(Screening, AFixListNeedsNoPasses) {
    const std::string list = (*scratch / "fix.csv").string();
    const Ran ran = run_program({"check", (*scratch / "site.toml").string(), "--fix-list", list, "--quiet"});
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_TRUE(has(testing::text_of(list), ",0113,dbh_cm,14700,")) << "a girth that lost its point";
}

class ScreeningOfASmallPark : public testing::SmallPark {
 protected:
    void trees(const std::string& rows) {
        testing::put_text(folder / "site.toml", site(""));
        testing::put_text(folder / "trees.csv", "tree,lon,lat,dbh_cm,height_m,condition\n" + rows);
    }
};

TEST_F(ScreeningOfASmallPark, NeedsTreesAlone) {
    trees("A,-1.9,52.3,40,12,good\nB,-1.9001,52.3,10,12,good\nC,-1.9002,52.3,40,,good\n");
    const Ran ran = plan();
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    for (const char* words :
         {"1 of 3 trees could hold a box.", "1 more could, once somebody decides: surveyor 1.",
          "1 is ruled out: trunk too thin 1.", "Nobody has checked: power lines"})
        EXPECT_TRUE(has(ran.out, words)) << ran.out;
}

TEST_F(ScreeningOfASmallPark, BlankSheetsAreNoSurvey) {
    testing::put_text(folder / "passes.csv", "date,time,watch,lon,lat,bearing_deg\n");
    testing::put_text(folder / "watches.csv", "watch,lon,lat,date,start,end,farthest_seen_m\n");
    const Ran ran = plan();
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_TRUE(has(ran.out, "20 of 20 trees could hold a box.")) << ran.out;
}

TEST_F(ScreeningOfASmallPark, AWatchOnWhichNothingFlewIsASurvey) {
    testing::put_text(folder / "passes.csv", "date,time,watch,lon,lat,bearing_deg\n");
    fails(3, {"passes.csv", "if nothing flew on any evening, watch on others first"});
}

TEST_F(ScreeningOfASmallPark, EndsWith4WhereNoTreeCouldHoldABox) {
    trees("A,-1.9,52.3,4,12,good\n");
    const Ran ran = plan();
    EXPECT_EQ(ran.exit_code, 4) << ran.err;
    EXPECT_TRUE(has(ran.out, "No tree could hold a box.")) << ran.out;
    EXPECT_FALSE(has(ran.out, "Next: watch")) << ran.out;
}

TEST_F(ScreeningOfASmallPark, ColumnsThatAreMissingAreSaid) {
    testing::put_text(folder / "site.toml", site(""));
    testing::put_text(folder / "trees.csv", "tree,lon,lat,condition\nA,-1.9,52.3,good\n");
    const Ran ran = plan();
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_TRUE(has(ran.out, "trunk diameters, tree heights")) << ran.out;
}

// A judgement of safety holds for three years: the last one in the list is held to be new, else a council
// that inspects its trees would be told to inspect them all.
TEST_F(ScreeningOfASmallPark, HoldsInspectionsAgainstTheLastOfThem) {
    testing::put_text(folder / "site.toml", site(""));
    testing::put_text(folder / "trees.csv",
                      "tree,lon,lat,dbh_cm,height_m,condition,hazard,inspected\n"
                      "A,-1.9,52.3,40,12,good,improbable,2026-03-01\n"
                      "B,-1.9001,52.3,40,12,good,improbable,2024-03-01\n"
                      "C,-1.9002,52.3,40,12,good,improbable,2019-03-01\n");
    const Ran ran = plan();
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_TRUE(has(ran.out, "2 of 3 trees could hold a box.")) << ran.out;
    EXPECT_TRUE(has(ran.out, "tree officer 1")) << ran.out;
}

TEST_F(ScreeningOfASmallPark, OfTreesThatAllLieElsewhereSaysWhatToDo) {
    trees("A,52.3,-1.9,40,12,good\nB,52.3001,-1.9,40,12,good\n");
    testing::put_text(
        folder / "area.geojson",
        R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{},"geometry":)"
        R"({"type":"Polygon","coordinates":[[[-1.91,52.29],[-1.89,52.29],[-1.89,52.31],)"
        R"([-1.91,52.31],[-1.91,52.29]]]}}]})");
    testing::put_text(folder / "site.toml", site("allowed_area = \"area.geojson\"\nmax_bad_share = 1.0"));
    fails(3, {"trees.csv", "swapped coordinates", "there is no tree in it that can be used"});
}

TEST_F(ScreeningOfASmallPark, AFixListHasARowForEachRowToMend) {
    trees(
        "A,-1.9,52.3,40,12,fine-ish\nB,-1.9001,52.3,40,12,good\nC,-1.9002,52.3,40,12,fine-ish\n"
        "D,-1.9003,52.3,40,12,\n");
    const std::string list = (folder / "fix.csv").string();
    const Ran ran = run_program({"check", (folder / "site.toml").string(), "--fix-list", list, "--quiet"});
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    const std::string text = testing::text_of(list);
    EXPECT_EQ(std::ranges::count(text, '\n'), 4) << text;
    for (const char* row : {"trees.csv,2,A,condition,fine-ish,", "trees.csv,4,C,condition,fine-ish,",
                            "trees.csv,5,D,condition,,"})
        EXPECT_TRUE(has(text, row)) << row << " not in " << text;
    EXPECT_FALSE(has(ran.out, "Say who stood where")) << ran.out;
}

TEST_F(ScreeningOfASmallPark, OfNoTreesSaysWhatToDo) {
    trees("");
    fails(3, {"trees.csv", "there is no tree in it that can be used"});
}

TEST_F(ScreeningOfASmallPark, HasNoCopyForEverybody) {
    trees("A,-1.9,52.3,40,12,good\n");
    fails(2, {"a screening ranks nothing"}, {"--public"});
}

}  // namespace
}  // namespace roostward
