#include "roostward/report/record_sheets.hpp"

#include <gtest/gtest.h>

#include <set>

namespace roostward::report {
namespace {

TEST(RecordSheets, EveryColumnIsThereOnceAndSaysInOneShortSentenceWhatItIsFor) {
    const std::vector<RecordSheet> sheets = record_sheets();
    ASSERT_EQ(sheets.size(), 3U);
    for (const RecordSheet& sheet : sheets) {
        std::set<std::string> names;
        for (const RecordColumn& column : sheet.columns) {
            EXPECT_TRUE(names.insert(column.name).second) << column.name;
            EXPECT_TRUE(column.meaning.ends_with('.')) << column.meaning;
            EXPECT_EQ(column.meaning.find(". "), std::string::npos) << column.meaning;
            EXPECT_LE(column.meaning.size(), 90U) << column.meaning;
        }
    }
}

TEST(RecordSheets, TheBlankIsAHeaderAloneAndTheHowToOneCellARow) {
    for (const RecordSheet& sheet : record_sheets()) {
        const std::vector<geo::NamedTable> book = blank_workbook(sheet);
        ASSERT_EQ(book.size(), 2U);
        EXPECT_EQ(book[0].name, sheet.name);
        EXPECT_EQ(book[0].table.header, blank_table(sheet).header);
        EXPECT_EQ(book[0].table.header.size(), sheet.columns.size());
        EXPECT_TRUE(book[0].table.rows.empty());
        EXPECT_EQ(book[1].table.header.size(), 1U);
        ASSERT_EQ(book[1].table.rows.size(), sheet.columns.size());
        for (std::size_t i = 0; i < sheet.columns.size(); ++i)
            EXPECT_EQ(book[1].table.rows[i],
                      std::vector{sheet.columns[i].name + ": " + sheet.columns[i].meaning});
    }
}

}  // namespace
}  // namespace roostward::report
