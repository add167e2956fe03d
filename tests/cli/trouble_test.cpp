// What people do wrong, and the sentence and exit code that they get.
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <string>
#include <thread>

#include "cli/small_park.hpp"

namespace roostward {
namespace {

using testing::Ran;
using testing::run_program;
using testing::ScratchFolder;

class Trouble : public testing::SmallPark {};

std::size_t count_of(const std::string& words, const std::string& text) {
    std::size_t count = 0;
    for (std::size_t at = text.find(words); at != std::string::npos; at = text.find(words, at + 1))
        ++count;
    return count;
}

// The sun sets at 21:27 there.
TEST_F(Trouble, ARowInDaylightLeavesItsEveningAlone) {
    std::string text = passes(40);
    text.insert(text.find('\n') + 1,
                "2026-06-09,12:30,A,-1.9000,52.3001,90\n2026-06-10,11:30,A,-1.9000,52.3001,90\n");
    testing::put_text(folder / "passes.csv", text);
    EXPECT_EQ(plan().exit_code, 0);
    const std::string findings = testing::text_of(folder / "out/findings.csv");
    EXPECT_EQ(count_of("\nset aside,", findings), 2U) << findings;
    EXPECT_EQ(count_of("daylight time", findings), 1U) << findings;
    EXPECT_EQ(count_of("outside the hours that count", findings), 1U) << "of the evening before";
}

// Samoa lies at 172° west and counts the date of the east.
TEST_F(Trouble, TheDateLineDoesNotMakeEveningsDays) {
    std::string text = site("passes = \"passes.csv\"\nwatches = \"watches.csv\"");
    text.replace(text.find("Europe/London"), 13, "Pacific/Apia");
    testing::put_text(folder / "site.toml", text);
    testing::put_text(folder / "watches.csv",
                      "watch,lon,lat,date,start,end,farthest_seen_m\n"
                      "A,-172.0000,-13.8000,2026-06-09,18:00,19:15,100\n");
    testing::put_text(folder / "passes.csv",
                      "date,time,watch,lon,lat\n2026-06-09,18:20,A,-172.0001,-13.8\n"
                      "2026-06-09,18:30,A,-172.0002,-13.8\n");
    testing::put_text(folder / "trees.csv", "tree,lon,lat,dbh_cm\nT1,-172.0002,-13.8,40\n");
    EXPECT_EQ(plan().exit_code, 0);
    const std::string findings = testing::text_of(folder / "out/findings.csv");
    EXPECT_EQ(count_of("set aside", findings), 0U) << findings;
}

TEST_F(Trouble, NoneToStartWith) {
    const Ran ran = plan();
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_NE(ran.out.find("Only 2 evenings count"), std::string::npos) << ran.out;
    EXPECT_NE(ran.out.find("Nobody has checked: power lines, planned works, roads, lamps"), std::string::npos)
        << ran.out;
}

TEST_F(Trouble, WishesThatCannotBe) {
    fails(2, {"site.toml", "choose.must", "\"T99\""}, {"--set", "choose.must=[\"T99\"]"});
    fails(3, {"site.toml", "choose.budget", "trees.csv"}, {"--set", "choose.budget=500"});
    fails(3, {"choose.at_most", "owner"}, {"--set", "choose.at_most={field=\"owner\",count=1}"});
    std::string trees = testing::text_of(folder / "trees.csv");
    trees.replace(trees.find(",40,"), 4, ",10,");
    testing::put_text(folder / "trees.csv", trees);
    fails(3, {"choose.must", "T0", "ruled out", "Take it out of must"}, {"--set", "choose.must=[\"T0\"]"});
}

TEST_F(Trouble, ATreeWithoutACostIsNotBoughtBlindly) {
    std::string trees = "tree,lon,lat,dbh_cm,height_m,condition,cost\n";
    for (int i = 0; i < 20; ++i)
        trees += "T" + std::to_string(i) + "," + std::to_string(-1.9005 + 0.0001 * i) +
                 ",52.3001,40,12,good," + (i == 5 ? "" : "120") + "\n";
    testing::put_text(folder / "trees.csv", trees);
    const Ran ran = plan({"--set", "choose.budget=300", "--set", "choose.spacing_m=5"});
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_NE(ran.out.find("2 of the 6 sites asked for"), std::string::npos) << ran.out;
    EXPECT_NE(testing::text_of(folder / "out/findings.csv").find("no cost"), std::string::npos);
    const std::string plan_json = testing::text_of(folder / "out/plan.json");
    EXPECT_NE(plan_json.find("The sites cost 240 of the"), std::string::npos) << plan_json;
    EXPECT_NE(plan_json.find("\"proven\": true"), std::string::npos);
    EXPECT_NE(plan_json.find("\"spent\": 240"), std::string::npos);
}

TEST_F(Trouble, NoPasses) {
    testing::put_text(
        folder / "site.toml",
        "[site]\nname = \"A\"\nanimal = \"small-crevice-bat\"\n[inputs]\nwatches = \"watches.csv\"\n");
    fails(2, {"passes, tracks or tallies", "trees"});
    testing::put_text(folder / "site.toml", site("passes = \"passes.csv\"\nwatches = \"watches.csv\""));
    testing::put_text(folder / "passes.csv", "date,time,watch,lon,lat\n");
    fails(3, {"passes.csv"});
}

TEST_F(Trouble, NoCrs) {
    testing::put_text(folder / "trees.csv", "tree,x,y,dbh_cm\nT1,407000,266800,40\n");
    fails(3, {"trees.csv", "crs"});
}

TEST_F(Trouble, SwappedCoordinates) {
    testing::put_text(folder / "passes.csv",
                      "date,time,watch,lon,lat\n2026-06-09,22:10,A,52.3001,-1.9000\n"
                      "2026-06-09,22:11,A,52.3002,-1.9000\n2026-06-09,22:12,A,52.3002,-1.9001\n");
    fails(3, {"passes.csv", "swapped", "swap"});
}

TEST_F(Trouble, CanopyElsewhere) {
    testing::copy_demo(folder);
    const std::string command = "gdal_translate -q -a_ullr 600000 5000000 600100 4999900 '" +
                                (folder / "canopy_height.tif").string() + "' '" +
                                (folder / "moved.tif").string() + "'";
    ASSERT_EQ(std::system(command.c_str()), 0);
    fails(3, {"moved.tif", "does not cover the site"}, {"--set", "inputs.canopy=moved.tif"});
}

TEST_F(Trouble, NoSuitableTree) {
    const Ran ran = plan({"--set", "suitability.min_dbh_cm=90"});
    EXPECT_EQ(ran.exit_code, 4) << ran.err;
    EXPECT_NE(ran.out.find("No tree can be chosen"), std::string::npos);
    EXPECT_NE(ran.out.find("trunk too thin 20"), std::string::npos) << ran.out;
    EXPECT_TRUE(std::filesystem::exists(folder / "out/other_trees.geojson"))
        << "the outputs are still written";
}

TEST_F(Trouble, AllPassesAtOneCoordinate) {
    std::string text = "date,time,watch,lon,lat\n";
    for (int i = 0; i < 30; ++i)
        text += "2026-06-09,22:" + std::to_string(10 + i) + ",A,-1.9000,52.3000\n";
    testing::put_text(folder / "passes.csv", text);
    const Ran ran = plan();
    EXPECT_NE(ran.err.find("many passes at few points"), std::string::npos) << ran.err;
}

TEST_F(Trouble, ASingleEvening) {
    testing::put_text(
        folder / "watches.csv",
        "watch,lon,lat,date,start,end,farthest_seen_m\nA,-1.9000,52.3000,2026-06-09,21:30,23:30,100\n");
    std::string text = "date,time,watch,lon,lat,bearing_deg\n";
    for (int i = 0; i < 20; ++i)
        text += "2026-06-09,22:" + std::to_string(10 + i) + ",A," + std::to_string(-1.9006 + 0.00006 * i) +
                ",52.3001,90\n";
    testing::put_text(folder / "passes.csv", text);
    const Ran ran = plan();
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_NE(ran.out.find("Only 1 evening counts"), std::string::npos) << ran.out;
}

TEST_F(Trouble, AnEmptyFile) {
    testing::put_text(folder / "trees.csv", "");
    fails(3, {"trees.csv", "empty"});
}

TEST_F(Trouble, AnEmptyRaster) {
    testing::put_text(folder / "canopy.tif", "");
    fails(3, {"canopy.tif", "empty"}, {"--set", "inputs.canopy=canopy.tif"});
}

TEST_F(Trouble, AFolderInPlaceOfAFile) {
    std::filesystem::create_directory(folder / "folder");
    fails(3, {"folder"}, {"--set", "inputs.trees=folder"});
    const Ran ran = run_program({"plan", folder.path().string(), "--out", (folder / "out").string()});
    EXPECT_EQ(ran.exit_code, 2) << ran.err;
}

TEST_F(Trouble, AMissingFile) {
    fails(3, {"nowhere.csv"}, {"--set", "inputs.trees=nowhere.csv"});
}

TEST_F(Trouble, AnUnknownKeyNamesItsNeighbour) {
    fails(2, {"choose.site", "sites"}, {"--set", "choose.site=3"});
}

TEST_F(Trouble, AFolderOfSomebodyElse) {
    std::filesystem::create_directory(folder / "theirs");
    testing::put_text(folder / "theirs/holiday.txt", "keep me");
    const std::string site = (folder / "site.toml").string(), theirs = (folder / "theirs").string();
    const Ran refused = run_program({"plan", site, "--out", theirs});
    EXPECT_EQ(refused.exit_code, 2);
    EXPECT_NE(refused.err.find("holiday.txt"), std::string::npos) << refused.err;
    EXPECT_EQ(run_program({"plan", site, "--out", theirs, "--force"}).exit_code, 0);
    EXPECT_EQ(testing::text_of(folder / "theirs/holiday.txt"), "keep me");
    EXPECT_TRUE(std::filesystem::exists(folder / "theirs/plan.json"));
}

TEST_F(Trouble, NotesInTheFolderOfAPlan) {
    ASSERT_EQ(plan().exit_code, 0);
    const auto hung = folder / "out/boxes_to_hang.csv";
    const std::string notes = testing::text_of(hung) + "hung on 3 June\n";
    testing::put_text(hung, notes);
    const Ran refused = plan({"--set", "choose.sites=2"});
    EXPECT_EQ(refused.exit_code, 2);
    EXPECT_NE(refused.err.find("boxes_to_hang.csv"), std::string::npos) << refused.err;
    EXPECT_EQ(testing::text_of(hung), notes);
    EXPECT_EQ(plan({"--set", "choose.sites=2", "--public", "--force"}).exit_code, 2)
        << "what people wrote does not stand beside a copy for everybody";
    const Ran forced = plan({"--set", "choose.sites=2", "--force"});
    EXPECT_EQ(forced.exit_code, 0);
    EXPECT_NE(forced.err.find("kept/boxes_to_hang.csv.1"), std::string::npos) << forced.err;
    EXPECT_EQ(testing::text_of(folder / "out/kept/boxes_to_hang.csv.1"), notes);
    EXPECT_NE(testing::text_of(folder / "out/plan.json").find("kept/boxes_to_hang.csv.1"), std::string::npos);
    EXPECT_EQ(plan().exit_code, 0) << "what is kept is in nobody's way";
    EXPECT_EQ(testing::text_of(folder / "out/kept/boxes_to_hang.csv.1"), notes);
}

TEST_F(Trouble, APlanDoesNotReadWhatItReplaces) {
    ASSERT_EQ(plan().exit_code, 0);
    const std::string boxes = "inputs.boxes=out/boxes_to_hang.csv";
    for (const std::vector<std::string>& more : {std::vector<std::string>{}, {"--force"}}) {
        std::vector<std::string> words{"--set", boxes};
        words.insert(words.end(), more.begin(), more.end());
        const Ran ran = plan(words);
        EXPECT_EQ(ran.exit_code, 2);
        EXPECT_NE(ran.err.find("this run would put another file in its place"), std::string::npos) << ran.err;
    }
}

TEST_F(Trouble, WrongUsage) {
    EXPECT_EQ(run_program({}).exit_code, 2);
    EXPECT_EQ(run_program({"plan"}).exit_code, 2);
    EXPECT_EQ(run_program({"fly"}).exit_code, 2);
    EXPECT_EQ(run_program({"--help"}).exit_code, 0);
    EXPECT_EQ(run_program({"--version"}).out, std::string("roostward 0.1.0\n"));
    EXPECT_EQ(plan({"--set", "nonsense"}).exit_code, 2);
}

TEST_F(Trouble, FixListIsWrittenAndNeverOverAnotherFile) {
    testing::put_text(folder / "trees.csv", "tree,lon,lat,dbh_cm\nT1,-1.9,52.3001,\nT2,-1.9001,52.3001,40\n");
    const std::string site = (folder / "site.toml").string(), list = (folder / "fix.csv").string();
    const Ran first = run_program({"check", site, "--fix-list", list});
    EXPECT_EQ(first.exit_code, 0) << first.err;
    EXPECT_NE(testing::text_of(list).find("T1,dbh_cm,,not told"), std::string::npos);
    for (const auto& theirs : {list, (folder / "trees.csv").string()}) {
        const std::string before = testing::text_of(theirs) + "asked on 3 June\n";
        testing::put_text(theirs, before);
        const Ran ran = run_program({"check", site, "--fix-list", theirs});
        EXPECT_EQ(ran.exit_code, 2);
        EXPECT_EQ(ran.out, "") << "refused before anything is read";
        EXPECT_NE(ran.err.find("people may have written in it"), std::string::npos) << ran.err;
        EXPECT_EQ(testing::text_of(theirs), before);
    }
}

TEST_F(Trouble, FixListMovesTheEarlierOneAsideWhereItIsTold) {
    testing::put_text(folder / "trees.csv", "tree,lon,lat,dbh_cm\nT1,-1.9,52.3001,\nT2,-1.9001,52.3001,40\n");
    const std::string site = (folder / "site.toml").string(), list = (folder / "fix.csv").string();
    const auto again = [&] { return run_program({"check", site, "--fix-list", list, "--force"}); };
    testing::put_text(list, "asked on 3 June\n");
    const Ran ran = again();
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_NE(ran.err.find("fix.csv.1"), std::string::npos) << ran.err;
    EXPECT_EQ(testing::text_of(folder / "kept/fix.csv.1"), "asked on 3 June\n");
    EXPECT_NE(testing::text_of(list).find("T1,dbh_cm,,not told"), std::string::npos);
    EXPECT_EQ(again().exit_code, 0);
    EXPECT_FALSE(std::filesystem::exists(folder / "kept/fix.csv.2")) << "the same list again is no other";
}

TEST_F(Trouble, FixListSaysWhyAnInventoryCannotBeUsed) {
    testing::put_text(folder / "trees.csv", "tree,lon,lat,dbh_cm\nT1,,,40\nT2,-1.9001,52.3001,40\n");
    const auto list = folder / "fix.csv";
    const Ran ran = run_program({"check", (folder / "site.toml").string(), "--fix-list", list.string()});
    EXPECT_EQ(ran.exit_code, 3);
    EXPECT_NE(testing::text_of(list).find("no coordinates"), std::string::npos);
}

TEST_F(Trouble, CheckWritesNothingAndExplains) {
    const Ran ran = run_program({"check", (folder / "site.toml").string(), "--explain"});
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_NE(ran.out.find("passes"), std::string::npos);
    EXPECT_NE(ran.out.find("activity.min_watch_hours = 0.25"), std::string::npos) << ran.out;
    EXPECT_FALSE(std::filesystem::exists(folder / "out"));
}

// The demo has a canopy model, whose part about the site is found from what was seen there.
TEST(TracksAlone, AreASurvey) {
    const ScratchFolder park;
    testing::copy_demo(park);
    std::string text = testing::text_of(park / "site.toml");
    for (const char* key : {"passes ", "tallies ", "routes ", "watches "})
        text.insert(text.find(std::string("\n") + key) + 1, "# ");
    testing::put_text(park / "site.toml", text);
    const Ran ran =
        run_program({"plan", (park / "site.toml").string(), "--out", (park / "out").string(), "--quiet"});
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_NE(ran.out.find("No watches were given"), std::string::npos) << ran.out;
    EXPECT_NE(ran.out.find("have too little evidence"), std::string::npos) << ran.out;
}

TEST_F(Trouble, KilledAtAnyMomentTheEarlierFolderIsWhole) {
    ASSERT_EQ(plan().exit_code, 0);
    const auto earlier = testing::bytes_of(folder / "out");
    const ScratchFolder scratch;
    const std::vector<std::string> words{"plan",  (folder / "site.toml").string(),
                                         "--out", (folder / "out").string(),
                                         "--set", "choose.sites=2"};
    const auto begun = std::chrono::steady_clock::now();
    ASSERT_EQ(testing::exit_code_of(testing::start_program(words, scratch)), 0);
    const auto whole_run = std::chrono::steady_clock::now() - begun;
    const auto later = testing::bytes_of(folder / "out");
    ASSERT_NE(earlier.size(), 0U);
    constexpr int moments = 40;
    for (int i = 0; i < moments; ++i) {
        const bool interrupt = i % 4 == 3;
        const ::pid_t child = testing::start_program(words, scratch);
        std::this_thread::sleep_for(whole_run * (i + 1) / moments);
        ::kill(child, interrupt ? SIGINT : SIGKILL);
        const int exit_code = testing::exit_code_of(child);
        if (interrupt) {
            EXPECT_TRUE(exit_code == 130 || exit_code == 0 || exit_code == -1) << exit_code;
        }
        const auto now = testing::bytes_of(folder / "out");
        ASSERT_EQ(now.size(), later.size());
        for (std::size_t f = 0; f < now.size(); ++f)
            if (now[f].first != "plan.json") {
                EXPECT_TRUE(now[f] == earlier[f] || now[f] == later[f]) << now[f].first;
            }
    }
    EXPECT_EQ(plan().exit_code, 0) << "leftovers of killed runs do not disturb";
    EXPECT_EQ(
        std::ranges::count_if(std::filesystem::directory_iterator(folder.path()),
                              [](const auto& e) { return e.path().filename().string().starts_with(".out"); }),
        0);
}

TEST_F(Trouble, OutOfDiskTheEarlierFolderIsWhole) {
    ASSERT_EQ(plan().exit_code, 0);
    const auto earlier = testing::bytes_of(folder / "out");
    for (const ::rlim_t largest : {1000UL, 4096UL, 20'000UL, 100'000UL}) {
        const Ran ran = run_program(
            {"plan", (folder / "site.toml").string(), "--out", (folder / "out").string()}, largest);
        EXPECT_EQ(ran.exit_code, 1) << largest << ": " << ran.err;
        EXPECT_TRUE(testing::bytes_of(folder / "out") == earlier) << largest;
    }
}

/// The trees of the park with another column, whose values take turns.
std::string trees_with(const std::string& column, const std::vector<std::string>& values,
                       const std::string& dbh = "40") {
    std::string trees = "tree,lon,lat,dbh_cm,height_m,condition," + column + "\n";
    for (std::size_t i = 0; i < 20; ++i)
        trees += "T" + std::to_string(i) + "," + std::to_string(-1.9005 + 0.0001 * static_cast<double>(i)) +
                 ",52.3001," + dbh + ",12,good," + values[i % values.size()] + "\n";
    return trees;
}

TEST_F(Trouble, OneOwnerHoweverTheNameIsWrittenHasOneQuota) {
    testing::put_text(folder / "trees.csv",
                      trees_with("owner", {"Österhof", "österhof", "O\u0308STERHOF", " Österhof  "}));
    const Ran ran = plan({"--set", "choose.at_most={field=\"owner\",count=1}"});
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_EQ(count_of("\"chosen\":true", testing::text_of(folder / "out/ranked_sites.geojson")), 1U);
}

TEST_F(Trouble, AColumnThatIsMissingAndOneThatIsBlankAreTheSame) {
    std::vector<std::string> ranked;
    for (const bool missing : {false, true}) {
        std::string trees = trees_with("note", {"x"}, "");
        if (missing) {
            for (std::size_t at = trees.find(",,12"); at != std::string::npos; at = trees.find(",,12"))
                trees.erase(at, 1);
            trees.erase(trees.find("dbh_cm,"), 7);
        }
        testing::put_text(folder / "trees.csv", trees);
        const Ran ran = plan();
        EXPECT_EQ(ran.exit_code, 0) << ran.err;
        EXPECT_NE(ran.out.find("trunk diameters"), std::string::npos) << ran.out;
        ranked.push_back(testing::text_of(folder / "out/ranked_sites.geojson"));
        EXPECT_NE(testing::text_of(folder / "out/plan.json").find("trunk diameters"), std::string::npos);
    }
    EXPECT_EQ(ranked[0], ranked[1]);
    EXPECT_GT(count_of("\"chosen\":true", ranked[0]), 1U);
}

TEST_F(Trouble, ATreeLowerThanItsBox) {
    fails(2, {"suitability.min_height_m", "4.5 m", "5.5"}, {"--set", "suitability.min_height_m=3"});
}

TEST_F(Trouble, AllEveningsInWinterAreSaidFirst) {
    for (const char* file : {"watches.csv", "passes.csv"}) {
        std::string text = testing::text_of(folder / file);
        for (std::size_t at = text.find("2026-06"); at != std::string::npos; at = text.find("2026-06"))
            text.replace(at, 7, "2027-01");
        for (const auto& [june, january] :
             {std::pair{",21:", ",16:"}, std::pair{",22:", ",17:"}, std::pair{",23:", ",18:"}})
            for (std::size_t at = text.find(june); at != std::string::npos; at = text.find(june))
                text.replace(at, 4, january);
        testing::put_text(folder / file, text);
    }
    const Ran ran = plan();
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    const std::string first = "All evenings lie in January: outside the active season (April to October)";
    EXPECT_EQ(ran.out.find(first), 0U) << ran.out;
    EXPECT_NE(testing::text_of(folder / "out/plan.json").find("\"out_of_season\": \"" + first),
              std::string::npos);
    const std::string page = testing::text_of(folder / "out/report.html");
    EXPECT_LT(page.find(first), page.find("Nobody has checked"));
    const Ran check = run_program({"check", (folder / "site.toml").string()});
    EXPECT_EQ(check.out.find(first), 0U) << check.out;
}

TEST_F(Trouble, OtherAnimalsAndOwls) {
    std::string text = "date,time,watch,lon,lat,bearing_deg,species\n";
    std::string plain = passes(40);
    plain.erase(0, plain.find('\n') + 1);
    for (std::size_t end = plain.find('\n'); end != std::string::npos; end = plain.find('\n')) {
        text += plain.substr(0, end) + ",bat\n";
        plain.erase(0, end + 1);
    }
    for (const char* who : {"fox", "fox", "Zorilla", "noctule", "owl"})
        text += std::string("2026-06-09,22:30,A,-1.9000,52.3001,,") + who + "\n";
    text += "2026-06-10,22:30,B,-1.9000,52.3001,,owl\n";
    testing::put_text(folder / "passes.csv", text);
    const Ran ran = plan();
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    const std::string json = testing::text_of(folder / "out/plan.json");
    EXPECT_NE(json.find("\"read\": 46,"), std::string::npos);
    EXPECT_NE(json.find("\"apart\": 6"), std::string::npos);
    const std::string others = testing::text_of(folder / "out/other_trees.geojson");
    EXPECT_NE(others.find("Owl seen within 50 m on 2026-06-09 and 2026-06-10"), std::string::npos);
    EXPECT_NE(others.find("licensed bat person"), std::string::npos);
    const Ran check = run_program({"check", (folder / "site.toml").string()});
    EXPECT_NE(check.out.find("2 × another animal"), std::string::npos) << check.out;
    EXPECT_NE(check.out.find("counts = { \"Zorilla\" = \"yes\" }"), std::string::npos) << check.out;
}

TEST_F(Trouble, TheHottestMonthIsAskedFor) {
    EXPECT_EQ(plan().exit_code, 0);
    EXPECT_EQ(count_of("hottest month not told", testing::text_of(folder / "out/findings.csv")), 1U);
    EXPECT_EQ(plan({"--set", "site.hottest_month_c=24"}).exit_code, 0);
    EXPECT_EQ(count_of("hottest month not told", testing::text_of(folder / "out/findings.csv")), 0U);
    EXPECT_EQ(run_program({"new", (folder / "park").string()}).exit_code, 0);
    EXPECT_NE(testing::text_of(folder / "park/site.toml").find("# hottest_month_c = 24"), std::string::npos);
}

}  // namespace
}  // namespace roostward
