// A first look holds the same ranking as the whole plan, and nothing that the whole plan alone works out.
#include <gdal.h>
#include <gtest/gtest.h>

#include <cstdint>
#include <nlohmann/json.hpp>
#include <vector>

#include "cli/program.hpp"

namespace roostward {
namespace {

using nlohmann::json;
using testing::Ran;
using testing::run_program;
using testing::ScratchFolder;

/// Bit by bit, row by row.
std::vector<std::uint32_t> pixels_of(const std::filesystem::path& file) {
    GDALAllRegister();
    GDALDatasetH const dataset = GDALOpen(file.c_str(), GA_ReadOnly);
    if (dataset == nullptr) return {};
    const int columns = GDALGetRasterXSize(dataset), rows = GDALGetRasterYSize(dataset);
    std::vector<std::uint32_t> pixels(static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows));
    EXPECT_EQ(GDALRasterIO(GDALGetRasterBand(dataset, 1), GF_Read, 0, 0, columns, rows, pixels.data(),
                           columns, rows, GDT_Float32, 0, 0),
              CE_None);
    GDALClose(dataset);
    return pixels;
}

class RankingOnly : public ::testing::Test {
 protected:
    static void SetUpTestSuite() {
        scratch = std::make_unique<ScratchFolder>();
        whole = plan("whole", {});
        first_look = plan("first-look", {"--ranking-only"});
    }
    static void TearDownTestSuite() { scratch.reset(); }

    static Ran plan(const std::string& folder, const std::vector<std::string>& more) {
        std::vector<std::string> arguments{"plan", (testing::demo() / "site.toml").string(), "--out",
                                           in(folder).string(), "--quiet"};
        arguments.insert(arguments.end(), more.begin(), more.end());
        return run_program(arguments);
    }
    static std::filesystem::path in(const std::string& folder) { return *scratch / folder; }
    static json read(const std::string& folder, const char* file) {
        return json::parse(testing::text_of(in(folder) / file));
    }

    static inline std::unique_ptr<ScratchFolder> scratch;
    static inline Ran whole, first_look;
};

TEST_F(RankingOnly, WritesFiveFiles) {
    ASSERT_EQ(first_look.exit_code, 0) << first_look.err;
    std::vector<std::string> names;
    for (const auto& [name, bytes] : testing::bytes_of(in("first-look")))
        names.push_back(name);
    const std::vector<std::string> expected{"findings.csv", "flight_density.tif", "plan.json",
                                            "ranked_sites.geojson", "watch_hours.tif"};
    EXPECT_EQ(names, expected);
}

TEST_F(RankingOnly, RanksAndChoosesAsTheWholePlanDoes) {
    ASSERT_EQ(whole.exit_code, 0) << whole.err;
    json expected = read("whole", "ranked_sites.geojson");
    for (json& feature : expected["features"])
        for (const char* drawn : {"stays_chosen_weights", "group"})
            feature["properties"][drawn] = nullptr;
    EXPECT_EQ(read("first-look", "ranked_sites.geojson"), expected);
    EXPECT_EQ(testing::text_of(in("first-look/findings.csv")), testing::text_of(in("whole/findings.csv")));
    for (const char* file : {"flight_density.tif", "watch_hours.tif"}) {
        const auto pixels = pixels_of(in("first-look") / file);
        EXPECT_FALSE(pixels.empty()) << file;
        EXPECT_TRUE(pixels == pixels_of(in("whole") / file)) << file;
    }
}

TEST_F(RankingOnly, SaysWhatItLeavesOut) {
    const json plan = read("first-look", "plan.json");
    EXPECT_TRUE(plan["summary"]["what_if"].is_null());
    EXPECT_TRUE(plan["summary"]["reserves"].is_null());
    EXPECT_TRUE(plan["summary"]["certainty"]["other_weights"].is_null());
    EXPECT_TRUE(plan["summary"]["sites"][0]["reserve"].is_null());
    EXPECT_EQ(plan["files"].size(), 5U);
    for (const char* left_out : {"what-ifs", "reserves", "report.html", "other_trees.geojson"})
        EXPECT_NE(std::ranges::find(plan["ranking_only"]["not_made"], left_out),
                  plan["ranking_only"]["not_made"].end())
            << left_out;
    EXPECT_NE(plan["repeat"].get<std::string>().find(" --ranking-only"), std::string::npos);
    EXPECT_FALSE(read("whole", "plan.json").contains("ranking_only"));
    EXPECT_NE(first_look.out.find("--ranking-only"), std::string::npos) << first_look.out;
    EXPECT_EQ(first_look.out.find("report.html"), std::string::npos) << first_look.out;
}

TEST_F(RankingOnly, KeepsTheCautions) {
    EXPECT_EQ(read("first-look", "plan.json")["cautions"], read("whole", "plan.json")["cautions"]);
    EXPECT_EQ(read("first-look", "plan.json")["not_checked"], read("whole", "plan.json")["not_checked"]);
    EXPECT_NE(first_look.out.find("All cautions: plan.json."), std::string::npos) << first_look.out;
}

TEST_F(RankingOnly, TakesTheWholePlansPlace) {
    ASSERT_EQ(plan("twice", {}).exit_code, 0);
    ASSERT_EQ(plan("twice", {"--ranking-only"}).exit_code, 0);
    EXPECT_EQ(testing::bytes_of(in("twice")).size(), 5U);
    EXPECT_EQ(plan("twice", {}).exit_code, 0);
    EXPECT_EQ(testing::bytes_of(in("twice")).size(), testing::bytes_of(in("whole")).size());
}

TEST_F(RankingOnly, EndsWithFourWhereNoTreeCanBeChosen) {
    EXPECT_EQ(plan("none", {"--ranking-only", "--set", "suitability.min_dbh_cm=900"}).exit_code, 4);
}

TEST_F(RankingOnly, AnswersNoQuestionAboutOtherTrees) {
    for (const auto& question : std::vector<std::vector<std::string>>{
             {"why", in("first-look").string(), "0155"},
             {"compare", in("first-look").string(), in("whole").string()}}) {
        const Ran ran = run_program(question);
        EXPECT_EQ(ran.exit_code, 2);
        EXPECT_NE(ran.err.find("make the plan again without --ranking-only"), std::string::npos) << ran.err;
    }
}

TEST_F(RankingOnly, IsNoCopyForEverybody) {
    EXPECT_EQ(plan("public", {"--ranking-only", "--public"}).exit_code, 2);
    EXPECT_FALSE(std::filesystem::exists(in("public")));
}

}  // namespace
}  // namespace roostward
