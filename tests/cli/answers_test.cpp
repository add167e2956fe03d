#include <gtest/gtest.h>

#include "program.hpp"

// The questions that are asked of a finished plan, of the demo.
namespace roostward::testing {
namespace {

class Answers : public ::testing::Test {
 protected:
    static void SetUpTestSuite() {
        scratch = std::make_unique<ScratchFolder>();
        ASSERT_EQ(plan("first", {}).exit_code, 0);
        ASSERT_EQ(plan("again", {"--threads", "1"}).exit_code, 0);
        ASSERT_EQ(plan("dark", {"--set", "weights.dark=4", "--set", "choose.spacing_m=35"}).exit_code, 0);
    }
    static void TearDownTestSuite() { scratch.reset(); }

    static Ran plan(const std::string& folder, const std::vector<std::string>& more) {
        std::vector<std::string> arguments{"plan", (demo() / "site.toml").string(), "--out", in(folder),
                                           "--quiet"};
        arguments.insert(arguments.end(), more.begin(), more.end());
        return run_program(arguments);
    }
    static std::string in(const std::string& folder) { return (*scratch / folder).string(); }

    static std::unique_ptr<ScratchFolder> scratch;
};
std::unique_ptr<ScratchFolder> Answers::scratch;

bool has(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

TEST_F(Answers, ComparingAPlanWithItsRepeatEndsWellAndSaysSo) {
    const Ran ran = run_program({"compare", in("first"), in("again")});
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_TRUE(has(ran.out, "Nothing moved")) << ran.out;
}

TEST_F(Answers, ComparingWithOtherSettingsEndsWithFiveAndNamesThem) {
    const Ran ran = run_program({"compare", in("first"), in("dark")});
    EXPECT_EQ(ran.exit_code, 5) << ran.err;
    EXPECT_TRUE(has(ran.out, "weights.dark is 4 instead of 1.")) << ran.out;
    EXPECT_TRUE(has(ran.out, "choose.spacing_m is 35 instead of 25.")) << ran.out;
}

TEST_F(Answers, EveryTreeOfTheDemoCanBeAskedFor) {
    const Ran chosen = run_program({"why", in("first"), "0155"});
    EXPECT_EQ(chosen.exit_code, 0) << chosen.err;
    EXPECT_TRUE(has(chosen.out, "site 1, rank 1")) << chosen.out;
    EXPECT_TRUE(has(chosen.out, "overhead power line: ")) << chosen.out;
    const Ran refused = run_program({"why", in("first"), "0105"});
    EXPECT_TRUE(has(refused.out, "0105")) << refused.err;
    EXPECT_TRUE(has(refused.out, "ruled out")) << refused.out;
    const Ran settle = run_program({"why", in("first"), "0101", "--json"});
    EXPECT_TRUE(has(settle.out, R"("state":"settle first")")) << settle.out;
}

TEST_F(Answers, APlanOfANewerFormatIsNotGuessedAt) {
    std::filesystem::copy(in("first"), in("newer"));
    std::string plan_json = text_of(*scratch / "newer" / "plan.json");
    const std::string format = "\"format\": 1,";
    ASSERT_TRUE(has(plan_json, format));
    put_text(*scratch / "newer" / "plan.json",
             plan_json.replace(plan_json.find(format), format.size(), "\"format\": 2,"));
    for (const Ran& ran :
         {run_program({"why", in("newer"), "0155"}), run_program({"compare", in("newer"), in("first")}),
          run_program({"compare", in("first"), in("newer")})}) {
        EXPECT_EQ(ran.exit_code, 2);
        EXPECT_TRUE(has(ran.err, "is of format 2")) << ran.err;
    }
}

// 0108 is the tree of the recorder, which heard a lot and saw nothing.
TEST_F(Answers, SaysWhatATreeLacksAndWhatWouldMendIt) {
    const Ran ranked = run_program({"why", in("first"), "0108"});
    EXPECT_TRUE(has(ranked.out, "Not chosen: ")) << ranked.out;
    EXPECT_TRUE(has(ranked.out, "To tell, watch from")) << ranked.out;
}

TEST_F(Answers, AWrongTagOrFolderIsWrongUsage) {
    EXPECT_EQ(run_program({"why", in("first"), "no such tree"}).exit_code, 2);
    const Ran ran = run_program({"compare", in("first"), in("nowhere")});
    EXPECT_EQ(ran.exit_code, 2);
    EXPECT_TRUE(has(ran.err, "holds no plan.json")) << ran.err;
}

}  // namespace
}  // namespace roostward::testing
