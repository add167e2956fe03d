// The same notes in any order of rows, of files of a layer and of entries of the site file give the same
// answer: only hashes of inputs and the rows that findings name may differ.
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <cstdlib>
#include <regex>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "cli/program.hpp"
#include "cli/shuffled.hpp"
#include "roostward/io/read_inputs.hpp"
#include "roostward/io/site_file.hpp"
#include "roostward/plan/plan.hpp"

namespace roostward {
namespace {

using testing::run_program;
using testing::ScratchFolder;

const std::vector<std::string> layers_of_demo{"passes.csv",     "tracks.geojson",      "tallies.csv",
                                              "routes.geojson", "watches.csv",         "roosts.csv",
                                              "lamps.geojson",  "roads.geojson",       "water.geojson",
                                              "trees.csv",      "power_lines.geojson", "area.geojson"};

/// Three evenings at two stations along a route: enough passes in a few squares that samples are drawn,
/// places rounded to a step, some rows twice, trees without an identifier, and feeding.
class Park {
 public:
    Park() {
        core::RandomStream random(7, "a small park");
        std::string passes = "time,lon,lat,bearing_deg,watch,count,behaviour,animal\n";
        for (const char* day : {"09", "10", "11"})
            for (int i = 0; i < 60; ++i) {
                const double along = 200.0 * random.uniform(), aside = 8.0 * random.uniform(-1.0, 1.0);
                passes +=
                    fmt::format("2026-06-{}T{}:{:02}:{:02},{:.4f},{:.4f},{},{},{},{},{}\n", day,
                                i % 3 == 0 ? 21 : 22, i % 3 == 0 ? 40 + random.below(20) : random.below(40),
                                random.below(60), -1.9 + along / 68'000.0, 52.3 + aside / 111'000.0,
                                i % 4 == 0   ? ""
                                : i % 2 == 0 ? "95"
                                             : "268",
                                i % 2 == 0 ? "A" : "", 1 + random.below(3), i % 7 == 0 ? "foraging" : "",
                                i % 9 == 0   ? "owl"
                                : i % 5 == 0 ? "long-ear"
                                             : "");
            }
        passes +=
            "2026-06-09T22:00:00,-1.8999,52.3000,95,A,several,,\n2026-06-09T22:00:00,-1.8999,52.3000,95,A,2,,"
            "\n";
        passes += "2026-06-09T22:00:00,-1.8999,52.3000,95,A,2,,\n";
        put("passes.csv", passes);
        std::string watches = "watch,lon,lat,date,start,end,farthest_seen_m,observer\n";
        for (const char* day : {"09", "10", "11"}) {
            watches += fmt::format("A,-1.8995,52.3001,2026-06-{},21:30,23:00,100,R.K.\n", day);
            watches += fmt::format("B,-1.8980,52.2999,2026-06-{},21:30,23:00,,T.M.\n", day);
        }
        put("watches.csv", watches);
        std::string trees = "tree,lon,lat,dbh_cm,height_m,condition,owner\n";
        for (int i = 0; i < 60; ++i)
            trees += fmt::format("{},{:.6f},{:.6f},{},12,good,{}\n",
                                 i % 6 == 0 ? "" : fmt::format("T{:02}", i % 50),
                                 -1.9 + 0.003 * random.uniform(), 52.3 + 0.0002 * random.uniform(-1.0, 1.0),
                                 20 + random.below(40), i % 2 == 0 ? "council" : "");
        put("trees.csv", trees);
        put("site.toml",
            "[site]\nname = \"Alder Reach Park\"\ntimezone = \"Europe/London\"\nanimal = "
            "\"small-crevice-bat\"\n"
            "[inputs]\npasses = \"passes.csv\"\nwatches = \"watches.csv\"\ntrees = "
            "\"trees.csv\"\n[choose]\nsites = 3\n");
    }

    void put(const char* name, const std::string& text) const { testing::put_text(folder_ / name, text); }
    [[nodiscard]] std::filesystem::path operator/(const char* name) const { return folder_ / name; }

    /// All that a first look says, identifiers made from rows and rows in findings aside.
    [[nodiscard]] std::string answer() const {
        core::Findings findings;
        io::SiteFile site = io::read_site_file((folder_ / "site.toml").string(), {});
        site.settings.ranking_only = true;
        const plan::Plan plan = plan::make_plan(
            site.settings, io::read_inputs(site, core::Threads{1}, findings), core::Threads{1});
        std::string text;
        for (const std::size_t tree : plan.ranked) {
            const auto& [verdict, activity] =
                std::tie(plan.candidates[tree].verdict, plan.candidates[tree].activity);
            const core::PlanePoint stem = plan.trees.rows[tree].stem;
            text += fmt::format("{} {} {} {} {} {}\n", stem.easting, stem.northing, activity.flight_density,
                                activity.watch_hours.value(), plan.candidates[tree].score,
                                plan.candidates[tree].site.value_or(0));
        }
        for (const core::Finding& finding : plan.findings)
            text += finding.kind + "|" + finding.place.field + "|" + without_rows(finding.value) + "|" +
                    without_rows(finding.sentence) + fmt::format("|{}\n", finding.rows);
        return text;
    }

 private:
    /// "row 12", and the 12 that a tree without an identifier was called.
    static std::string without_rows(const std::string& text) {
        static const std::regex row("row [0-9]+|#[0-9]+|^[0-9]+$");
        return std::regex_replace(text, row, "row");
    }
    ScratchFolder folder_;
};

TEST(AnyOrder, OfRowsGivesTheSameRanksAndFindings) {
    const Park park;
    const std::string answer = park.answer();
    EXPECT_NE(answer.find("the same pass twice"), std::string::npos);
    EXPECT_NE(answer.find("identifier used twice"), std::string::npos);
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        core::RandomStream random(seed, "another order");
        for (const char* file : {"passes.csv", "watches.csv", "trees.csv"})
            testing::shuffle_rows(park / file, random);
        ASSERT_EQ(park.answer(), answer) << "seed " << seed;
    }
}

/// Without the digits that follow `before`.
std::string without_number(std::string text, const std::string& before) {
    for (std::size_t at = text.find(before); at != std::string::npos;
         at = text.find(before, at + before.size()))
        while (std::isdigit(static_cast<unsigned char>(text[at + before.size()])) != 0)
            text.erase(at + before.size(), 1);
    return text;
}

std::string without_hashes(std::string text) {
    std::size_t run = 0;
    for (char& c : text) {
        run = std::isxdigit(static_cast<unsigned char>(c)) != 0 ? run + 1 : 0;
        if (run == 64) std::fill(&c - 63, &c + 1, '-');
    }
    return text;
}

/// The plan's number comes from the hashes of its inputs.
std::string number_in(const std::string& plan) {
    const std::string key = "\"number\": \"";
    return plan.substr(plan.find(key) + key.size(), 8);
}

std::string without(std::string text, const std::string& word) {
    for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at))
        text.replace(at, word.size(), word.size(), '-');
    return text;
}

/// Without hashes, and without the rows of findings, which the report tells too.
std::string comparable(const std::string& name, const std::string& bytes) {
    static const std::regex row_of_csv("^((?:set aside|apart|doubtful|note),[^,]*,[^,]*,[^,]*),[0-9]*,",
                                       std::regex::multiline);
    if (name == "report.html") return without_number(without_hashes(bytes), " row ");
    if (name == "plan.json") return without_hashes(bytes);
    return name == "findings.csv" ? std::regex_replace(bytes, row_of_csv, "$1,,") : bytes;
}

class DemoInAnyOrder : public ::testing::Test {
 protected:
    DemoInAnyOrder() {
        ::setenv("SOURCE_DATE_EPOCH", "1780000000", 1);
        testing::copy_demo(folder);
        // Two of its trees are called 0300, and the second gets its row behind it: that name may differ.
        std::string trees = testing::text_of(folder / "trees.csv");
        testing::put_text(folder / "trees.csv", trees.insert(trees.rfind("\n0300,") + 5, "b"));
    }
    /// Into the same folder name, so that the command to repeat it is the same.
    std::vector<std::pair<std::string, std::string>> planned() {
        const testing::Ran ran = run_program(
            {"plan", (folder / "site.toml").string(), "--out", (folder / "out").string(), "--threads", "2"});
        EXPECT_EQ(ran.exit_code, 0) << ran.err;
        auto files = testing::bytes_of(folder / "out");
        const std::string number = number_in(testing::text_of(folder / "out/plan.json"));
        for (auto& [name, bytes] : files)
            bytes = comparable(name, without(bytes, number));
        std::filesystem::remove_all(folder / "out");
        return files;
    }
    void replace_in_site(const std::string& old, const std::string& by) {
        std::string text = testing::text_of(folder / "site.toml");
        const std::size_t at = text.find(old);
        ASSERT_NE(at, std::string::npos) << old;
        testing::put_text(folder / "site.toml", text.replace(at, old.size(), by));
    }
    static void expect_same(const std::vector<std::pair<std::string, std::string>>& one,
                            const std::vector<std::pair<std::string, std::string>>& other) {
        ASSERT_EQ(one.size(), other.size());
        for (std::size_t i = 0; i < one.size(); ++i) {
            EXPECT_EQ(one[i].first, other[i].first);
            EXPECT_TRUE(one[i].second == other[i].second) << one[i].first << " differs";
        }
    }
    ScratchFolder folder;
};

TEST_F(DemoInAnyOrder, OfRowsGivesTheSameBytes) {
    const auto as_written = planned();
    for (const std::uint64_t seed : {1U, 2U, 3U}) {
        core::RandomStream random(seed, "another order");
        for (const std::string& layer : layers_of_demo)
            testing::shuffle_rows(folder / layer.c_str(), random);
        expect_same(planned(), as_written);
    }
}

// Files are read in the order of their names, whatever their order in the list.
TEST_F(DemoInAnyOrder, OfFilesAndLayersGivesTheSameBytes) {
    testing::split(folder / "passes.csv", folder / "more_passes.csv");
    testing::split(folder / "lamps.geojson", folder / "more_lamps.geojson");
    replace_in_site("\"passes.csv\"", "[\"passes.csv\", \"more_passes.csv\"]");
    replace_in_site("\"lamps.geojson\"", "[\"more_lamps.geojson\", \"lamps.geojson\"]");
    const auto one_way = planned();
    replace_in_site("[\"passes.csv\", \"more_passes.csv\"]", "[\"more_passes.csv\", \"passes.csv\"]");
    replace_in_site("roosts       = \"roosts.csv\"", "");
    replace_in_site("max_bad_share = 0.1", "roosts = \"roosts.csv\"\nmax_bad_share = 0.1");
    expect_same(planned(), one_way);
}

// Where the rows stand changes nothing of what is said of the trees.
TEST_F(DemoInAnyOrder, SplitFilesGiveTheSameTreesAndLines) {
    const auto whole = planned();
    for (const char* layer : {"passes", "watches", "trees"})
        testing::split(folder / (std::string(layer) + ".csv").c_str(),
                       folder / (std::string(layer) + "_2.csv").c_str());
    replace_in_site("\"passes.csv\"", "[\"passes.csv\", \"passes_2.csv\"]");
    replace_in_site("\"watches.csv\"", "[\"watches_2.csv\", \"watches.csv\"]");
    replace_in_site("file = \"trees.csv\"", "file = [\"trees.csv\", \"trees_2.csv\"]");
    const auto in_parts = planned();
    ASSERT_EQ(whole.size(), in_parts.size());
    for (std::size_t i = 0; i < whole.size(); ++i) {
        const std::string& name = whole[i].first;
        const bool tells_files = name == "findings.csv" || name == "plan.json" || name == "report.html";
        EXPECT_TRUE(tells_files || whole[i].second == in_parts[i].second) << name << " differs";
    }
}

}  // namespace
}  // namespace roostward
