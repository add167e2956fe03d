#include "roostward/io/text_table.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

namespace roostward::io {
namespace {

using Cells = std::vector<std::string>;

struct Read {
    std::vector<Cells> rows;
    std::vector<std::size_t> lines;
    std::vector<RowFault> faults;
};

Read read(const TextTable& table) {
    Read out;
    table.for_each([&](const TextRow& row) {
        out.rows.emplace_back(row.cells.begin(), row.cells.end());
        out.lines.push_back(row.line);
        out.faults.push_back(row.fault);
        return true;
    });
    return out;
}

// RFC 4180, section 2, rules 1 to 7, with its own examples.
TEST(TextTable, FollowsRfc4180) {
    const Read plain = read(TextTable("field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx"));
    EXPECT_EQ(plain.rows, (std::vector<Cells>{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
    const Read quoted = read(TextTable("a,b,c\r\n\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx\r\n"));
    EXPECT_EQ(quoted.rows, (std::vector<Cells>{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
    EXPECT_EQ(quoted.lines, (std::vector<std::size_t>{2, 4}));
    EXPECT_EQ(read(TextTable("a,b,c\r\n\"aaa\",\"b\"\"bb\",\"ccc\"\r\n")).rows,
              (std::vector<Cells>{{"aaa", "b\"bb", "ccc"}}));
    EXPECT_EQ(read(TextTable("a,b\r\n\"x,y\",z\r\n")).rows, (std::vector<Cells>{{"x,y", "z"}}));
}

TEST(TextTable, TellsTheDelimiterFromTheHeader) {
    for (const char delimiter : {',', ';', '\t', '|'}) {
        std::string text = "tree,dbh\n1,35\n";
        std::replace(text.begin(), text.end(), ',', delimiter);
        const TextTable table(text);
        EXPECT_EQ(table.delimiter(), delimiter);
        EXPECT_EQ(read(table).rows, (std::vector<Cells>{{"1", "35"}}));
    }
    EXPECT_EQ(TextTable("\"a,b,c,d\";x\n1;2\n").delimiter(), ';');
    EXPECT_EQ(read(TextTable("x;y\n1,5;2,5\n")).rows, (std::vector<Cells>{{"1,5", "2,5"}}));
}

TEST(TextTable, TheFirstRowIsAlwaysTheHeader) {
    const TextTable table("\n  \nName,Town\nAnna,Berg\n");
    EXPECT_EQ(table.header(), (Cells{"Name", "Town"}));
    EXPECT_EQ(read(table).lines, (std::vector<std::size_t>{4}));
}

TEST(TextTable, KnowsLineEndsOfAllSystems) {
    for (const std::string end : {"\n", "\r\n", "\r"}) {
        const Read out = read(TextTable("a,b" + end + "1,2" + end + end + "3,4" + end));
        EXPECT_EQ(out.rows, (std::vector<Cells>{{"1", "2"}, {"3", "4"}}));
        EXPECT_EQ(out.lines, (std::vector<std::size_t>{2, 4}));
    }
}

TEST(TextTable, ARowOfAnotherLengthIsKeptApart) {
    const Read out = read(TextTable("a,b\n1,2\n1,2,3\n1\n3,4\n"));
    EXPECT_EQ(out.faults, (std::vector<RowFault>{RowFault::none, RowFault::cell_count, RowFault::cell_count,
                                                 RowFault::none}));
}

TEST(TextTable, AnOpenQuoteSwallowsOneLineOnly) {
    const Read at_end = read(TextTable("a,b\n1,\"2\n3,4\n5,6\n"));
    EXPECT_EQ(at_end.faults, (std::vector<RowFault>{RowFault::open_quote, RowFault::none, RowFault::none}));
    EXPECT_EQ(at_end.lines, (std::vector<std::size_t>{2, 3, 4}));
    const Read before_quoted = read(TextTable("a,b\n1,\"2\n3,4\n\"5\",6\n7,\"8\"\n"));
    EXPECT_EQ(before_quoted.faults,
              (std::vector<RowFault>{RowFault::open_quote, RowFault::none, RowFault::none, RowFault::none}));
    const Read before_delimiter_in_quotes = read(TextTable("a,b\n1,\"2\n3,\",\"\n5,6\n"));
    EXPECT_EQ(before_delimiter_in_quotes.faults,
              (std::vector<RowFault>{RowFault::open_quote, RowFault::none, RowFault::none}));
    EXPECT_EQ(read(TextTable("a,b\n\"x\" y,2\n3,4\n")).faults,
              (std::vector<RowFault>{RowFault::open_quote, RowFault::none}));
}

TEST(TextTable, AQuoteInsideAnUnquotedCellIsText) {
    EXPECT_EQ(read(TextTable("a,b\n12\",2\n")).rows, (std::vector<Cells>{{"12\"", "2"}}));
}

TEST(TextTable, AHeaderWithAnOpenQuoteIsNone) {
    EXPECT_TRUE(TextTable("a,\"b\n1,2\n").header().empty());
}

// Unicode 15, sections 3.9 and 23.8; Windows code page 1252 as the WHATWG Encoding Standard has it: E9 is é,
// 80 is €.
TEST(TextEncoding, IsToldFromTheBytes) {
    using namespace std::string_literals;
    EXPECT_EQ(decoded("\xEF\xBB\xBF"
                      "h\xC3\xA9")
                  .text,
              "hé");
    EXPECT_EQ(decoded("\xFF\xFEh\0\xE9\0"s).text, "hé");
    EXPECT_EQ(decoded("\xFE\xFF\0h\0\xE9"s).text, "hé");
    EXPECT_EQ(decoded("a\0,\0b\0\n\0"s).encoding, Encoding::utf16_little);
    EXPECT_EQ(decoded("\0a\0,\0b\0\n"s).encoding, Encoding::utf16_big);
    EXPECT_EQ(decoded("h\xE9 \x80").text, "hé €");
    EXPECT_EQ(decoded("h\xE9 \x80").encoding, Encoding::cp1252);
    EXPECT_EQ(decoded("h\xE9\x81").text, "hé\uFFFD");
}

// Unicode 15, table 3-7: no overlong forms, no surrogates, nothing over U+10FFFF.
TEST(TextEncoding, RefusesWhatIsNotUtf8) {
    EXPECT_TRUE(is_utf8("\xF0\x9F\xA6\x87 bat, and more than eight bytes"));
    EXPECT_FALSE(is_utf8("\xC0\xAF"));
    EXPECT_FALSE(is_utf8("\xE0\x80\x80"));
    EXPECT_FALSE(is_utf8("\xED\xA0\x80"));
    EXPECT_FALSE(is_utf8("\xF4\x90\x80\x80"));
    EXPECT_FALSE(is_utf8("12345678\xE2\x82"));
}

}  // namespace
}  // namespace roostward::io
