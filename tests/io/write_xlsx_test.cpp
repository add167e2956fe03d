#include <cpl_vsi.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <thread>

#include "io/scratch_folder.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/spreadsheet.hpp"
#include "roostward/io/writers.hpp"

namespace roostward::io {
namespace {

using testing::ScratchFolder;

const std::vector<geo::NamedTable> two_sheets = {
    {"passes",
     {{"time", "tag", "lon"}, {{"21:46", "0101", "-1.8976"}, {"", "3-4", ""}, {"=1+1", "<&>\"é", "1,5"}}}},
    {"how to", {{"One cell a row"}, {{"time: when it was."}}}}};

TEST(WriteXlsx, EveryCellStaysTheTextThatItIs) {
    const ScratchFolder scratch;
    write_xlsx(scratch / "a.xlsx", two_sheets);
    const Workbook book = read_workbook(testing::text_of(scratch / "a.xlsx"));
    ASSERT_EQ(book.sheets.size(), 2U);
    EXPECT_EQ(book.sheets[1].name(), "how to");
    const Sheet& sheet = book.sheets[0];
    ASSERT_EQ(sheet.size(), 4U);
    for (std::size_t i = 0; i < sheet.size(); ++i) {
        for (const SheetCell& cell : sheet.row(i).cells)
            EXPECT_EQ(cell.kind, CellKind::text);
    }
    EXPECT_EQ(sheet.row(1).cells[1].value, Value("0101"));
    EXPECT_EQ(sheet.row(2).cells[0].value, Value("3-4"));
    EXPECT_EQ(sheet.row(2).cells[0].column, 1U);
    EXPECT_EQ(sheet.row(3).cells[0].value, Value("=1+1")) << "not run as a formula";
    EXPECT_EQ(sheet.row(3).cells[1].value, Value("<&>\"é"));
}

TEST(WriteXlsx, IsTheSameBytesAtAnyTime) {
    const ScratchFolder scratch;
    write_xlsx(scratch / "a.xlsx", two_sheets);
    std::this_thread::sleep_for(std::chrono::milliseconds(2100));
    write_xlsx(scratch / "b.xlsx", two_sheets);
    EXPECT_EQ(testing::text_of(scratch / "a.xlsx"), testing::text_of(scratch / "b.xlsx"));
}

std::string part_of(const std::filesystem::path& file, const char* part) {
    VSILFILE* in = VSIFOpenL(("/vsizip/" + file.string() + "/" + part).c_str(), "rb");
    std::string text(20'000, ' ');
    if (in != nullptr) text.resize(VSIFReadL(text.data(), 1, text.size(), in));
    VSIFCloseL(in);
    return text;
}

// What an office program puts into an empty cell goes by its column's style; 49 is the format of text
// (ECMA-376, part 1, section 18.8.30).
TEST(WriteXlsx, EmptyCellsAreTextToo) {
    const ScratchFolder scratch;
    write_xlsx(scratch / "a.xlsx", two_sheets);
    const std::string sheet = part_of(scratch / "a.xlsx", "xl/worksheets/sheet1.xml");
    for (const char* column : {"1", "2", "3"}) {
        const std::size_t at = sheet.find("<col min=\"" + std::string(column) + "\"");
        ASSERT_NE(at, std::string::npos) << sheet;
        EXPECT_NE(sheet.substr(at, sheet.find('>', at) - at).find("style=\"1\""), std::string::npos) << sheet;
    }
    const std::string styles = part_of(scratch / "a.xlsx", "xl/styles.xml");
    const std::size_t first = styles.find("<xf ", styles.find("<cellXfs"));
    const std::size_t second = styles.find("<xf ", first + 1);
    EXPECT_TRUE(styles.substr(second).starts_with("<xf numFmtId=\"49\" ")) << styles;
}

TEST(WriteXlsx, ADiskWithoutRoomIsAnError) {
    try {
        write_xlsx("/dev/full", two_sheets);
        ADD_FAILURE() << "nothing was told";
    } catch (const core::Error& error) {
        EXPECT_EQ(error.fault(), core::Fault::outputs);
    }
    EXPECT_THROW(write_xlsx("/no/such/folder/a.xlsx", two_sheets), core::Error);
}

}  // namespace
}  // namespace roostward::io
