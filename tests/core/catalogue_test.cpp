#include "roostward/core/catalogue.hpp"

#include <gtest/gtest.h>

#include <stdexcept>

namespace roostward::core {
namespace {

TEST(Catalogue, ReadsKeysAndTexts) {
    const Catalogue words =
        read_catalogue("# note\n\na.b = \"one \\\"two\\\" \\\\ = {x}\"\nc = \"\"\nd = \"1\\n2\"");
    ASSERT_EQ(words.size(), 3U);
    EXPECT_EQ(words.at("a.b"), "one \"two\" \\ = {x}");
    EXPECT_EQ(words.at("c"), "");
    EXPECT_EQ(words.at("d"), "1\n2");
}

TEST(Catalogue, RefusesWhatIsNoKeyAndText) {
    for (const char* line :
         {"a", "a = b", "a = \"b", "a = \"b\"c\"", "a = \"b\\\"", "a = \"", "a = \"1\"\na = \"2\""})
        EXPECT_THROW((void)read_catalogue(line), std::invalid_argument) << line;
}

TEST(Catalogue, FillsInNames) {
    EXPECT_EQ(said("way.near_tree", {{"metres", "9"}, {"tree", "{way}"}, {"way", "west"}}),
              "9 m west of tree {way}");
    EXPECT_EQ(said("way.near_tree", {{"metres", 9}, {"tree", 17}, {"way", "west"}}), "9 m west of tree 17");
    EXPECT_THROW((void)said("way.near_tree", {{"metres", "9"}}), std::invalid_argument);
    EXPECT_THROW((void)said("no such key"), std::out_of_range);
}

/// English again at the end, whatever a test said before.
struct Translation : testing::Test {
    ~Translation() override { speak({}); }
};

TEST_F(Translation, TakesThePlaceOfEnglishKeyByKey) {
    const std::vector<std::string> left_out = speak({{"way.0", "nord"},
                                                     {"way.9", "nowhere"},
                                                     {"way.near_water", "{way} {metres:.1f} {depth}"},
                                                     {"way.near_road", "{way} {metres:.1f}"},
                                                     {"number.decimal", ","}});
    EXPECT_EQ(left_out, (std::vector<std::string>{"way.9", "way.near_water"}));
    EXPECT_EQ(said("way.0"), "nord");
    EXPECT_EQ(said("way.1"), "north-east");
    EXPECT_EQ(said("way.near_road", {{"metres", 2.25}, {"way", said("way.0")}}), "nord 2,2");
    EXPECT_THROW((void)said("way.near_road", {{"metres", "two"}, {"way", "."}}), std::invalid_argument);
}

}  // namespace
}  // namespace roostward::core
