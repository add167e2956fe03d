#include "roostward/core/document.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace roostward::core {
namespace {

TEST(Json, NumbersAsEveryOutputWritesThem) {
    EXPECT_EQ(to_json(0.1), "0.1");
    EXPECT_EQ(to_json(-0.0), "0");
    EXPECT_EQ(to_json(1234567.891234), "1234567.89");
    EXPECT_EQ(to_json(3), "3");
    EXPECT_EQ(to_json(std::nan("")), "null");
    EXPECT_EQ(to_json(std::numeric_limits<double>::infinity()), "null");
}

// RFC 8259, section 7: quotation mark, reverse solidus and control characters must be escaped.
TEST(Json, TextIsEscaped) {
    EXPECT_EQ(to_json("a\"b\\c\n\x01"), "\"a\\\"b\\\\c\\n\\u0001\"");
    EXPECT_EQ(to_json("Ulme é 木"), "\"Ulme é 木\"");
}

// The Unicode Standard, table 3-7: overlong, surrogate and cut-off sequences are ill-formed.
TEST(Json, IllFormedUtf8IsReplaced) {
    EXPECT_EQ(to_json("caf\xE9"), "\"caf\xEF\xBF\xBD\"");
    EXPECT_EQ(to_json("\xC0\xAF"), "\"\xEF\xBF\xBD\xEF\xBF\xBD\"");
    EXPECT_EQ(to_json("\xED\xA0\x80"), "\"\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD\"");
}

TEST(Json, KeepsTheOrderOfKeys) {
    const Document document = Object{{"z", 1}, {"a", List{true, nullptr, "x"}}, {"empty", List{}}};
    EXPECT_EQ(to_json(document), R"({"z":1,"a":[true,null,"x"],"empty":[]})");
    EXPECT_EQ(to_pretty_json(document),
              "{\n  \"z\": 1,\n  \"a\": [\n    true,\n    null,\n    \"x\"\n  ],\n  \"empty\": []\n}\n");
}

}  // namespace
}  // namespace roostward::core
