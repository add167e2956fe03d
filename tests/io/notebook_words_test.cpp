#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "io/reading_site.hpp"

namespace roostward::io {
namespace {

using testing::ReadingSite;

struct Words : ReadingSite {
    /// One pass a word, in column `field`.
    std::vector<survey::Pass> passes(const std::string& field, const std::vector<std::string>& words) {
        std::string text = "time,lon,lat," + field + "\n";
        for (const std::string& word : words)
            text += "2026-06-09T21:36,-1.8956,52.2982,\"" + word + "\"\n";
        put("passes.csv", text);
        file.max_bad_share = 1.0;
        siting::Inputs inputs = read();
        testing::expect_nothing_lost(inputs, findings);
        return inputs.passes.rows;
    }

    [[nodiscard]] std::string kinds(std::size_t row) const {
        std::string all;
        for (const core::Finding& f : findings)
            if (f.place.row == row && f.place.layer == "passes" && f.kind != "the same pass twice")
                all += f.kind;
        return all;
    }
};

TEST(Counts, MayBeWords) {
    struct Case {
        const char* written;
        double count;
        const char* finding;
    };
    const std::vector<Case> cases = {{"3", 3, ""},
                                     {"one", 1, ""},
                                     {"a pair", 2, ""},
                                     {"two bats", 2, ""},
                                     {"3 bats", 3, ""},
                                     {"2 pairs", 4, ""},
                                     {"a dozen", 12, ""},
                                     {"half a dozen", 6, ""},
                                     {"two dozen", 24, ""},
                                     {"drei", 3, ""},
                                     {"une", 1, ""},
                                     {"F\u00DCNF", 5, ""},
                                     {"2-3", 2, "range"},
                                     {"2 or 3", 2, "range"},
                                     {"one or two", 1, "range"},
                                     {"deux ou trois", 2, "range"},
                                     {"~10", 10, ""},
                                     {"about a dozen", 12, "rough count"},
                                     {"a couple", 2, "rough count"},
                                     {"3+", 3, "range"},
                                     {"", 1, ""},
                                     {"x2", 2, ""},
                                     {"2x", 2, ""}};
    std::vector<std::string> words;
    for (const Case& c : cases)
        words.emplace_back(c.written);
    Words notes;
    const auto passes = notes.passes("count", words);
    ASSERT_EQ(passes.size(), cases.size());
    for (std::size_t i = 0; i < cases.size(); ++i) {
        EXPECT_EQ(passes[i].count, cases[i].count) << cases[i].written;
        EXPECT_EQ(notes.kinds(i + 2), cases[i].finding) << cases[i].written;
    }
}

TEST(Counts, ThatNobodyMadeAreSetAside) {
    Words notes;
    const auto passes = notes.passes("count", {"several", "many bats", "lots", "a few", "plusieurs",
                                               "ein paar", "none", "a cloud", "0", "1"});
    EXPECT_EQ(passes.size(), 1U);
    for (std::size_t row = 2; row <= 7; ++row)
        EXPECT_EQ(notes.kinds(row), "how many?") << row;
    EXPECT_EQ(notes.kinds(8), "not a number");
    EXPECT_EQ(notes.kinds(9), "not a number");
    EXPECT_EQ(notes.kinds(10), "nothing counted");
}

TEST(Bearings, WithAnOAreReadAsTheSiteFileMapsThem) {
    Words notes;
    EXPECT_FALSE(notes.passes("bearing_deg", {"NO"}).front().bearing);
    EXPECT_EQ(notes.kinds(2), "east or west?");
    notes.file.passes->fields["bearing_deg"] = {"bearing_deg", "", false, {{"O", "E"}, {"NO", "NE"}}};
    const auto passes = notes.passes("bearing_deg", {"no", "NE"});
    EXPECT_EQ(passes[0].bearing, passes[1].bearing);
    EXPECT_TRUE(passes[0].bearing);
    EXPECT_EQ(notes.kinds(2), "");
}

// The creek runs due north along 1.8946° W, some 68 m east of the pass: a degree of longitude is 68.2 km long
// at 52.2982° N (WGS 84).
TEST(NamedWays, LeadToTheNearestPointOfTheirRoute) {
    Words notes;
    notes.put(
        "routes.geojson",
        R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{"name":"The Creek"},)"
        R"("geometry":{"type":"LineString","coordinates":[[-1.8946,52.29],[-1.8946,52.31]]}},)"
        R"({"type":"Feature","properties":{"name":"hedge"},)"
        R"("geometry":{"type":"LineString","coordinates":[[-1.89555,52.29],[-1.89555,52.31]]}}]})");
    const std::vector<std::string> words = {"towards the creek", "from the creek", "to the hedge",
                                            "to the pub", "E"};
    const auto before = notes.passes("bearing_deg", words);
    EXPECT_FALSE(before[0].bearing);
    EXPECT_EQ(notes.kinds(2), "unknown bearing") << "no routes";
    notes.file.routes = testing::source_of("routes", notes.folder / "routes.geojson");
    const auto passes = notes.passes("bearing_deg", words);
    ASSERT_EQ(passes.size(), 5U);
    EXPECT_NEAR(passes[0].bearing->value(), passes[4].bearing->value(), 0.01);
    EXPECT_NEAR(passes[1].bearing->value(), passes[4].bearing->value() + 180.0, 0.01);
    EXPECT_FALSE(passes[2].bearing);
    EXPECT_EQ(notes.kinds(4), "on the route itself");
    EXPECT_FALSE(passes[3].bearing);
    EXPECT_EQ(notes.kinds(5), "unknown bearing");
    EXPECT_EQ(notes.kinds(2), "");
}

}  // namespace
}  // namespace roostward::io
