#include "roostward/report/text_block.hpp"

#include <gtest/gtest.h>

#include <sstream>

namespace roostward::report {
namespace {

TEST(Fitted, CountsCodePointsNotBytes) {
    EXPECT_EQ(fitted("Ulme", 6), "Ulme  ");
    EXPECT_EQ(fitted("Ulme", 6, true), "  Ulme");
    EXPECT_EQ(fitted("Grüne Esche", 5), "Grün…");
    EXPECT_EQ(columns_of(fitted("木木木木", 3)), 3U);
}

TEST(Wrapped, LosesNoWordAndNoSpace) {
    std::string text;
    for (int i = 0; i < 60; ++i)
        text += (i == 0 ? "" : " ") + std::string("Do not fix or move");
    const std::string block = wrapped(text, 2, "- ");
    std::string joined;
    std::stringstream lines(block);
    for (std::string line; std::getline(lines, line);) {
        EXPECT_LE(columns_of(line), terminal_columns);
        joined += (joined.empty() ? "" : " ") + line.substr(2);
    }
    EXPECT_EQ(joined, text);
}

TEST(Wrapped, AWordLongerThanALineStandsAlone) {
    const std::string word(100, 'x');
    EXPECT_EQ(wrapped("a " + word + " b"), "a\n" + word + "\nb\n");
}

}  // namespace
}  // namespace roostward::report
