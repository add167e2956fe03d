#include "roostward/core/catalogue.hpp"

#include <gtest/gtest.h>

#include <stdexcept>
#include <utility>

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
         {"a", "a = b", "a = \"b", "a = \"b\"c\"", "a = \"b\\\"", "a = \"", " = \"b\"", "= \"b\""})
        EXPECT_THROW((void)read_catalogue(line), UnreadableLine) << line;
}

TEST(Catalogue, TellsTheLineThatCannotBeRead) {
    const auto unreadable = [](const char* text) {
        try {
            (void)read_catalogue(text);
        } catch (const UnreadableLine& line) {
            return std::pair(line.number(), line.key_told_before());
        }
        return std::pair(std::size_t{0}, std::string("all was read"));
    };
    EXPECT_EQ(unreadable("# one\n\na = \"1\"\nb\n"), std::pair(std::size_t{4}, std::string()));
    EXPECT_EQ(unreadable("a = \"1\"\na = \"2\""), std::pair(std::size_t{2}, std::string("a")));
}

TEST(Catalogue, HeedsNoBlanksAtTheEndsOfLinesAndAroundTheSign) {
    EXPECT_EQ(read_catalogue("  a=\"1\"\t\r\n \r\nb  =  \" 2 \"\r\n"), (Catalogue{{"a", "1"}, {"b", " 2 "}}));
}

TEST(Catalogue, FillsInNames) {
    EXPECT_EQ(said("way.near_tree", {{"metres", "9"}, {"tree", "{way}"}, {"way", "west"}}),
              "9 m west of tree {way}");
    EXPECT_EQ(said("way.near_tree", {{"metres", 9}, {"tree", 17}, {"way", "west"}}), "9 m west of tree 17");
    EXPECT_THROW((void)said("way.near_tree", {{"metres", "9"}}), std::invalid_argument);
    EXPECT_THROW((void)said("no such key"), std::out_of_range);
}

TEST(Catalogue, LeavesABraceBeforeABlankAlone) {
    EXPECT_EQ(said("finding.two_columns", {{"field", "tree"}, {"column", "ID"}, {"other", "no"}}),
              "tree was taken from column ID; no would fit too. Say which in the site file: "
              "fields = { tree = \"…\" }");
}

/// English again at the end, whatever a test said before.
struct Translation : testing::Test {
    ~Translation() override { speak({}); }
};

TEST_F(Translation, TakesThePlaceOfEnglishKeyByKey) {
    const std::vector<std::string> left_out = speak({{"way.0", "nord"},
                                                     {"way.9", "nowhere"},
                                                     {"way.near_water", "{way} {metres:.1f} {depth}"},
                                                     {"reason.too_low", "{metres:.1f}"},
                                                     {"number.decimal", ","}});
    EXPECT_EQ(left_out, (std::vector<std::string>{"way.9", "way.near_water"}));
    EXPECT_EQ(said("way.0"), "nord");
    EXPECT_EQ(said("way.1"), "north-east");
    EXPECT_EQ(said("reason.too_low", {{"metres", 2.25}}), "2,2");
    EXPECT_THROW((void)said("reason.too_low", {{"metres", "two"}}), std::invalid_argument);
}

TEST_F(Translation, WritesNumbersOnlyWhereEnglishDoes) {
    const auto left_out = [](const char* key, const char* text) { return !speak({{key, text}}).empty(); };
    EXPECT_TRUE(left_out("way.near_road", "{metres:.1f} {way}"));  // English: {metres}
    EXPECT_FALSE(left_out("reason.too_low", "{metres:.3f} m"));    // English: {metres:g}
    EXPECT_FALSE(left_out("reason.too_low", "{metres:g} m"));
    EXPECT_TRUE(left_out("reason.too_low", "{metres:d} m"));
    EXPECT_TRUE(left_out("reason.too_low", "{metres:.0q} m"));
    EXPECT_TRUE(left_out("reason.too_low", "{metres:.{way}f} m"));
}

TEST_F(Translation, ShowsWordsOfTheProgram) {
    speak({{"state.ruled_out", "scheidet aus"}});
    EXPECT_EQ(shown("state", "ruled out"), "scheidet aus");
    EXPECT_EQ(shown("state", "settle first"), "settle first");
    EXPECT_EQ(shown("state", "of my own"), "of my own");
}

}  // namespace
}  // namespace roostward::core
