#include "roostward/core/folding.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>

namespace roostward::core {
namespace {

std::string in_utf8(const std::string& codes) {
    std::istringstream in(codes);
    std::string text;
    for (unsigned long code = 0; in >> std::hex >> code;) {
        const auto byte = [&](unsigned long bits) { text += static_cast<char>(bits); };
        if (code < 0x80) {
            byte(code);
        } else if (code < 0x800) {
            byte(0xC0UL | (code >> 6U));
            byte(0x80UL | (code & 0x3FU));
        } else if (code < 0x10000) {
            byte(0xE0UL | (code >> 12U));
            byte(0x80UL | ((code >> 6U) & 0x3FU));
            byte(0x80UL | (code & 0x3FU));
        } else {
            byte(0xF0UL | (code >> 18U));
            byte(0x80UL | ((code >> 12U) & 0x3FU));
            byte(0x80UL | ((code >> 6U) & 0x3FU));
            byte(0x80UL | (code & 0x3FU));
        }
    }
    return text;
}

// Python's unicodedata: tests/reference/core/SOURCE.
TEST(Folding, IsThatOfUnicode) {
    std::ifstream in(ROOSTWARD_SOURCE_DIR "/tests/reference/core/folding.txt");
    std::size_t letters = 0;
    for (std::string line; std::getline(in, line); ++letters) {
        const std::size_t mark = line.find(';');
        EXPECT_EQ(folded(in_utf8(line.substr(0, mark))), in_utf8(line.substr(mark + 1))) << line;
    }
    EXPECT_GT(letters, 1000U);
}

TEST(Folding, MakesOneNameOfItsSpellings) {
    EXPECT_EQ(folded("Österhof"), folded("österhof"));
    EXPECT_EQ(folded("Österhof"), folded("O\u0308STERHOF"));
    EXPECT_NE(folded("Österhof"), folded("Osterhof"));
    EXPECT_EQ(folded("Große Straße"), folded("GROSSE  STRASSE"));
    EXPECT_EQ(folded("ΟΔΟΣ"), folded("οδος"));
    EXPECT_EQ(folded("Парк"), folded("ПАРК"));
}

TEST(Folding, MindsNoBlanksAtEndsOrOfAnotherKind) {
    EXPECT_EQ(folded("  A\u00A0B\tc \r\n"), "a b c");
    EXPECT_EQ(folded("\uFEFFTree\u200B 7\u3000"), "tree 7");
    EXPECT_EQ(folded(" \u2009 "), "");
}

TEST(Folding, LeavesWhatIsNoText) {
    EXPECT_EQ(folded("A\xFF\xC3Z"), "a\xFF\xC3z");
    EXPECT_EQ(folded(""), "");
}

TEST(Marks, AreTakenOffLetters) {
    EXPECT_EQ(without_marks("Höhe ESPÈCE čeština"), "Hohe ESPECE cestina");
    EXPECT_EQ(without_marks("Ho\u0308he"), "Hohe");
    EXPECT_EQ(without_marks("25 cm"), "25 cm");
}

TEST(PlainWords, ArePartedByAllThatIsNoLetter) {
    EXPECT_EQ(plain_words("Murciélagos – 2 BATS’ roost"),
              (std::vector<std::string>{"murcielago", "2", "bat", "roost"}));
    EXPECT_EQ(plain_words("Bus gas"), (std::vector<std::string>{"bus", "gas"}));
    EXPECT_TRUE(plain_words(" … ").empty());
}

}  // namespace
}  // namespace roostward::core
