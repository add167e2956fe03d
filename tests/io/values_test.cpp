#include "roostward/io/values.hpp"

#include <gtest/gtest.h>

namespace roostward::io {
namespace {

double value_of(std::string_view text) {
    const std::optional<WrittenNumber> number = read_number(text);
    EXPECT_TRUE(number) << text;
    return number ? number->value : -1e9;
}

// Decimal comma, grouping by thin space and the minus sign: ISO 80000-1:2009, section 7.3. Point or comma
// before three digits of a second group is the other mark.
TEST(Numbers, AreReadInEverydayForms) {
    EXPECT_EQ(value_of("35"), 35.0);
    EXPECT_EQ(value_of("-1.8956"), -1.8956);
    EXPECT_EQ(value_of("35,5"), 35.5);
    EXPECT_EQ(value_of("1\u2009234,5"), 1234.5);
    EXPECT_EQ(value_of("1\u00A0234"), 1234.0);
    EXPECT_EQ(value_of("1\u202F234\u202F567"), 1234567.0);
    EXPECT_EQ(value_of("1.234,5"), 1234.5);
    EXPECT_EQ(value_of("1,234.5"), 1234.5);
    EXPECT_EQ(value_of("1,234,567"), 1234567.0);
    EXPECT_EQ(value_of("\u22125"), -5.0);
    EXPECT_EQ(value_of("+5"), 5.0);
    EXPECT_EQ(value_of("1e3"), 1000.0);
    EXPECT_EQ(value_of("about 12"), 12.0);
    EXPECT_EQ(value_of("~12"), 12.0);
}

TEST(Numbers, KeepTheUnitBehindThem) {
    EXPECT_EQ(read_number("35 cm")->unit, "cm");
    EXPECT_EQ(read_number("35cm")->unit, "cm");
    EXPECT_EQ(read_number("12\"")->unit, "\"");
    EXPECT_EQ(read_number("7,5\u00A0m")->value, 7.5);
    EXPECT_EQ(read_number("15 \u00B0C")->unit, "\u00B0c");
}

TEST(Numbers, OfARangeTheLowerEndIsTaken) {
    for (const char* text :
         {"30-45", "30\u201345", "30 - 45 cm", "30 to 45", "30+", ">30", "\u226530", "over 30"}) {
        const std::optional<WrittenNumber> number = read_number(text);
        ASSERT_TRUE(number) << text;
        EXPECT_EQ(number->value, 30.0) << text;
        EXPECT_TRUE(number->range) << text;
    }
    EXPECT_TRUE(read_number("<10")->below);
    EXPECT_FALSE(read_number("-5")->range);
}

TEST(Numbers, WordsAndMixturesAreNone) {
    for (const char* text : {"several", "", "5' 10\"", "12:30", "2026-06-09", "abc 5", "--5", "1.2.3,4,5"}) {
        const std::optional<WrittenNumber> number = read_number(text);
        EXPECT_TRUE(!number || !fits(number->unit, Dimension::plain) || number->range) << text;
    }
    EXPECT_FALSE(read_number("several"));
    EXPECT_FALSE(read_number("12:30"));
}

// International yard and pound agreement of 1959: 1 in = 25.4 mm, 1 ft = 304.8 mm.
TEST(Units, AreExact) {
    EXPECT_EQ(*micrometres_in("in"), 25400.0);
    EXPECT_EQ(*micrometres_in("Feet"), 304800.0);
    EXPECT_EQ(*micrometres_in("m") / *micrometres_in("mm"), 1000.0);
    EXPECT_EQ(12.0 * (*micrometres_in("in") / *micrometres_in("cm")), 30.48);
    EXPECT_FALSE(micrometres_in("furlong"));
    EXPECT_FALSE(fits("kg", Dimension::length));
    EXPECT_TRUE(fits("m/s", Dimension::speed));
}

TEST(Words, IgnoreCaseSpacesAndMarks) {
    EXPECT_EQ(bare_word("Tree_ID (No.)"), "treeidno");
    EXPECT_EQ(read_yes_no("Y"), std::optional(true));
    EXPECT_EQ(read_yes_no("No"), std::optional(false));
    EXPECT_FALSE(read_yes_no("perhaps"));
    EXPECT_TRUE(says_nothing("n/a"));
    EXPECT_TRUE(says_nothing("-"));
    EXPECT_FALSE(says_nothing("0"));
}

}  // namespace
}  // namespace roostward::io
