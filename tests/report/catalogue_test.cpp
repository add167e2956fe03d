#include "roostward/report/catalogue.hpp"

#include <gtest/gtest.h>

#include <stdexcept>

namespace roostward::report {
namespace {

TEST(Catalogue, ReadsKeysAndTexts) {
    const Catalogue words = read_catalogue("# note\n\na.b = \"one \\\"two\\\" \\\\ = {x}\"\nc = \"\"");
    ASSERT_EQ(words.size(), 2U);
    EXPECT_EQ(words.at("a.b"), "one \"two\" \\ = {x}");
    EXPECT_EQ(words.at("c"), "");
}

TEST(Catalogue, RefusesWhatIsNoKeyAndText) {
    for (const char* line :
         {"a", "a = b", "a = \"b", "a = \"b\"c\"", "a = \"b\\\"", "a = \"", "a = \"1\"\na = \"2\""})
        EXPECT_THROW((void)read_catalogue(line), std::invalid_argument) << line;
}

TEST(Catalogue, FillsInNames) {
    EXPECT_EQ(said("way.near_tree", {{"metres", "9"}, {"tree", "{way}"}, {"way", "west"}}),
              "9 m west of tree {way}");
    EXPECT_THROW((void)said("way.near_tree", {{"metres", "9"}}), std::invalid_argument);
    EXPECT_THROW((void)said("no such key"), std::out_of_range);
}

}  // namespace
}  // namespace roostward::report
