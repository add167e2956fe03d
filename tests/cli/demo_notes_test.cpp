#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "cli/program.hpp"
#include "io/scratch_folder.hpp"

namespace roostward {
namespace {

using nlohmann::json;
using testing::run_program;
using testing::ScratchFolder;

json tree_in(const std::filesystem::path& file, const std::string& name) {
    const json collection = json::parse(testing::text_of(file));
    for (const auto& feature : collection["features"])
        if (feature["properties"]["tree"] == name) return feature["properties"];
    ADD_FAILURE() << name << " is not in " << file;
    return {};
}

// The recorder in tree 0108, the friend's tally at the weir beside tree 0109, and the wet evening.
TEST(DemoNotes, AreToldForWhatTheyAre) {
    const ScratchFolder folder;
    const auto ran = run_program(
        {"plan", (testing::demo() / "site.toml").string(), "--out", (folder / "out").string(), "--quiet"});
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    const std::string findings = testing::text_of(folder / "out/findings.csv");
    for (const char* told : {"heard somewhere in view", "places from a drawing", "poor weather (rain)"})
        EXPECT_NE(findings.find(told), std::string::npos) << told;
    const json by_the_weir = tree_in(folder / "out/ranked_sites.geojson", "0109");
    EXPECT_EQ(by_the_weir["evenings_watched"], 1);
    EXPECT_EQ(by_the_weir["evenings_used"], 1);
    EXPECT_FALSE(by_the_weir["chosen"].get<bool>()) << "one evening's tally";
    // Nine of the twelve flew along the creek in an hour, which 6 and 10 m of spread share with the ground
    // beside.
    EXPECT_GT(by_the_weir["flights_per_hour"].get<double>(), 6.0);
    EXPECT_LT(by_the_weir["flights_per_hour"].get<double>(), 20.0);
    const json plan = json::parse(testing::text_of(folder / "out/plan.json"));
    const auto tallies =
        std::ranges::find(plan["rows"], json("tallies"), [](const json& row) { return row["layer"]; });
    ASSERT_NE(tallies, plan["rows"].end());
    EXPECT_EQ((*tallies)["used"], 1);
}

}  // namespace
}  // namespace roostward
