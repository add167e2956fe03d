#include "roostward/io/spreadsheet.hpp"

#include <gtest/gtest.h>

#include <map>
#include <random>

#include "io/scratch_folder.hpp"
#include "roostward/core/error.hpp"

// The files are made by make.py in their folder; SOURCE there says after what.
namespace roostward::io {
namespace {

const std::filesystem::path folder =
    std::filesystem::path(ROOSTWARD_SOURCE_DIR) / "tests/io/data/spreadsheets";

Workbook open(const char* name) {
    return read_workbook(testing::text_of(folder / name));
}

std::string shown(const SheetCell& cell) {
    const auto* text = std::get_if<std::string_view>(&cell.value);
    return text != nullptr ? std::string(*text) : std::to_string(std::get<double>(cell.value));
}

/// "4: A=Tree no|B=Lon", a line a row.
std::string shown(const Sheet& sheet) {
    std::string out;
    for (std::size_t i = 0; i < sheet.size(); ++i) {
        out += std::to_string(sheet.row(i).number) + ":";
        for (const SheetCell& cell : sheet.row(i).cells)
            out += std::string(" ") + static_cast<char>('A' + cell.column) + "=" + shown(cell);
        out += "\n";
    }
    return out;
}

std::string refusal(std::string_view bytes) {
    try {
        (void)read_workbook(bytes);
    } catch (const core::Error& error) {
        EXPECT_EQ(error.fault(), core::Fault::inputs);
        return error.what();
    }
    ADD_FAILURE() << "nothing was refused";
    return {};
}

/// One sheet of XLSX, or a content.xml where `part` says so, without a file around it.
Workbook from_xml(const std::string& part, const std::string& xml) {
    std::map<std::string, std::string> parts{{part, xml}};
    if (part == "s.xml") {
        parts["_rels/.rels"] = R"(<R><Relationship Id="a" Type="/officeDocument" Target="b.xml"/></R>)";
        parts["b.xml"] = R"(<w xmlns:r="relationships"><sheet name="S" r:id="i"/></w>)";
        parts["_rels/b.xml.rels"] = R"(<R><Relationship Id="i" Type="/worksheet" Target="s.xml"/></R>)";
    }
    return read_workbook([&](const std::string& name, const auto& take) {
        if (!parts.contains(name)) return false;
        take(parts.at(name));
        return true;
    });
}

TEST(Spreadsheet, KeepsDatesAndClocks) {
    const std::string first = "2: A=2026-06-09 B=21:46:46 C=bridge-1 D=-1.897611 E=52.297920 F=80.000000\n";
    for (const char* name : {"passes.xlsx", "passes_1904.xlsx"}) {
        const std::string rows = shown(open(name).sheets.at(0));
        EXPECT_NE(rows.find(first), std::string::npos) << name << ": " << rows;
    }
    const std::string rows = shown(open("passes_date_format.xlsx").sheets.at(0));
    EXPECT_NE(rows.find("2: A=2026-06-09T21:46:46"), std::string::npos) << rows;
}

// Written by LibreOffice from the files beside them: an office program's reading of ours, and ours of its.
TEST(Spreadsheet, ReadsWhatAnOfficeProgramMadeOfTheSameFiles) {
    for (const char* name : {"libreoffice_passes.ods", "libreoffice_passes_1904.xlsx"})
        EXPECT_EQ(shown(open(name).sheets.at(0)), shown(open("passes.xlsx").sheets.at(0))) << name;
    std::string ours = shown(open("trees_titled.xlsx").sheets.at(0));
    for (const auto& [from, to] :
         {std::pair<std::string, std::string>{"formula without a value", "106.500000"},
          {"true", "1.000000"},
          {"false", "0.000000"}})
        for (std::size_t at = ours.find(from); at != std::string::npos; at = ours.find(from))
            ours.replace(at, from.size(), to);
    EXPECT_EQ(shown(open("libreoffice_trees_titled.ods").sheets.at(0)), ours);
}

TEST(Spreadsheet, ReadsWhatCellsHoldNotHowTheyWereMade) {
    EXPECT_EQ(shown(open("trees_titled.xlsx").sheets.at(0)),
              "1: A=Trees of Alder Reach Park\n"
              "2: A=Surveyed by the parks department D=2025-03-01\n"
              "4: A=Tree no B=Lon C=Lat D=DBH (cm) E=Hollow F=Species\n"
              "5: A=0101 B=-1.895600 C=52.298200 D=35.500000 E=true F=Alnus glutinosa\n"
              "6: A=0102 B=-1.895700 C=52.298300 D=71.000000 E=false F=Alnus glutinosa\n"
              "9: A=0103 B=-1.895800 C=52.298400 D=#DIV/0! E=true F=Tilia x europaea\n"
              "10: A=0104 B=-1.895900 C=52.298500 D=formula without a value E=false F=Tilia x europaea\n"
              "12: A=Total D=106.500000\n"
              "13: A=Average: D=53.250000\n"
              "14: A=Source: the department's own survey\n");
}

TEST(Spreadsheet, ReadsStrictFilesOfOtherWriters) {
    const Workbook book = open("trees_strict.xlsx");
    ASSERT_EQ(book.sheets.size(), 1U);
    EXPECT_EQ(book.sheets[0].name(), "Trees");
    EXPECT_EQ(shown(book.sheets[0]),
              "1: A=tree B=lon C=lat D=inspected\n2: A=17.000000 B=-1.895600 C=52.298200 D=2025-06-30\n");
}

TEST(Spreadsheet, MergedCellsCountForEachRowBesideThem) {
    for (const char* name : {"passes_merged.xlsx", "libreoffice_passes_merged.ods"}) {
        const Workbook book = open(name);
        EXPECT_EQ(shown(book.sheets.at(0)), shown(open("passes.xlsx").sheets.at(0))) << name;
        EXPECT_EQ(book.sheets[0].spread_count(), 3U);
    }
    EXPECT_EQ(open("trees_titled.xlsx").sheets.at(0).spread_count(), 0U) << "a title is merged sideways";
}

TEST(Spreadsheet, ReadsOpenDocument) {
    const Workbook book = open("passes.ods");
    ASSERT_EQ(book.sheets.size(), 2U);
    EXPECT_FALSE(book.sheets[0].hidden());
    EXPECT_TRUE(book.sheets[1].hidden());
    EXPECT_EQ(shown(book.sheets[0]),
              "1: A=date B=time C=watch D=lon E=lat F=bearing_deg\n"
              "4: A=2026-06-09 B=21:46:46 C=bridge one D=-1.897611 E=52.297920 F=80.000000\n"
              "5: A=2026-06-09T21:47:46 B=21:47:46 D=-1.897511 E=52.297920 F=#N/A\n"
              "6: A=2026-06-09T21:47:46 B=21:47:46 D=-1.897511 E=52.297920 F=#N/A\n");
    EXPECT_FALSE(book.sheets[0].row(1).hidden);
    EXPECT_TRUE(book.sheets[0].row(3).hidden);
}

TEST(Spreadsheet, ReadsEveryKindOfOpenDocumentValue) {
    const Workbook book = from_xml(
        "content.xml",
        R"(<o:d xmlns:o="urn:oasis:names:tc:opendocument:xmlns:office:1.0"><o:spreadsheet><table name="T"><table-row>
        <table-cell o:value-type="boolean" boolean-value="true"/><table-cell o:value-type="percentage" o:value="0.35"/>
        <table-cell o:value-type="currency" o:value="12.5"/><table-cell o:value-type="time" time-value="PT25H30M0S"/>
        <table-cell o:value-type="string" string-value="  told  "><p>shown</p></table-cell>
        <covered-table-cell number-columns-repeated="2"/><table-cell o:value-type="date" date-value="0000-00-00"><p>odd</p></table-cell>
        <table-cell><p>two</p><p>lines</p><table><table-row><table-cell><p>inner</p></table-cell></table-row></table></table-cell>
        </table-row></table></o:spreadsheet></o:d>)");
    EXPECT_EQ(shown(book.sheets.at(0)),
              "1: A=true B=35% C=12.500000 D=25:30:00 E=told H=0000-00-00 I=two\nlines\n");
}

TEST(Spreadsheet, RefusesOtherFilesAndSaysWhatToDo) {
    const auto says = [](const char* name, const char* words) {
        const std::string said = refusal(testing::text_of(folder / name));
        EXPECT_NE(said.find(words), std::string::npos) << name << ": " << said;
    };
    says("old.xls", "save it as .xlsx or .ods");
    says("locked.xlsx", "password");
    says("locked.ods", "password");
    says("a_letter.xlsx", "no spreadsheet");
    EXPECT_NE(refusal("tree,lon,lat\n").find("no spreadsheet"), std::string::npos);
    EXPECT_NE(refusal("").find("no spreadsheet"), std::string::npos);
    EXPECT_NE(refusal("PK\x03\x04 and no more").find("damaged"), std::string::npos);
}

TEST(Spreadsheet, RefusesBombs) {
    EXPECT_NE(refusal(testing::text_of(folder / "unpacks_without_end.xlsx")).find("unpacks to more"),
              std::string::npos);
    EXPECT_NE(refusal(testing::text_of(folder / "repeated_without_end.ods")).find("over and over"),
              std::string::npos);
}

TEST(Spreadsheet, SaysWhichNumberIsNone) {
    try {
        (void)from_xml("content.xml", R"(<d><spreadsheet><table name="T"><table-row>
            <table-cell number-columns-repeated="twice"/></table-row></table></spreadsheet></d>)");
        FAIL() << "nothing was refused";
    } catch (const core::Error& error) {
        EXPECT_NE(std::string_view(error.what()).find(R"(how often something is repeated is "twice")"),
                  std::string_view::npos)
            << error.what();
    }
}

// An entity that names others ten times over grows tenfold a step: a document type is refused as such.
TEST(Spreadsheet, RefusesEntities) {
    EXPECT_THROW((void)from_xml("s.xml", R"(<!DOCTYPE w [<!ENTITY a "b">]><w><sheetData/></w>)"),
                 core::Error);
}

TEST(Spreadsheet, RefusesImpossiblePlaces) {
    for (const char* row :
         {R"(<row r="x"><c><v>1</v></c></row>)", R"(<row r="1"><c r="ZZZZ1"><v>1</v></c></row>)",
          R"(<row r="1"><c r="XFE1"><v>1</v></c></row>)", R"(<row><c t="s"><v>5</v></c></row>)",
          R"(<row r="-1"/>)", R"(<row r="99999999999999999999"/>)"}) {
        EXPECT_THROW((void)from_xml("s.xml", std::string("<w><sheetData>") + row + "</sheetData></w>"),
                     core::Error)
            << row;
    }
    EXPECT_EQ(
        from_xml("s.xml", R"(<w><sheetData><row r="1048576"><c r="XFD1"><v>1</v></c></row></sheetData></w>)")
            .sheets[0]
            .row(0)
            .cells[0]
            .column,
        16383U);
}

/// Bytes of a file changed, cut out and put in.
std::string spoilt(std::string bytes, std::mt19937& random) {
    const auto below = [&](std::size_t n) { return random() % std::max<std::size_t>(n, 1); };
    for (std::size_t i = 1 + below(8); i > 0 && !bytes.empty(); --i) {
        const std::size_t at = below(bytes.size());
        if (i % 3 == 0) bytes.erase(at, below(9));
        if (i % 3 == 1) bytes[at] = static_cast<char>(below(256));
        if (i % 3 == 2) bytes.insert(at, i % 2 == 0 ? "99999999" : "<row>");
    }
    return bytes;
}

// Read or refused, never anything else.
TEST(Spreadsheet, SurvivesSpoiltFiles) {
    std::mt19937 random(7);
    std::size_t read = 0, refused = 0;
    for (const char* name : {"trees_titled.xlsx", "trees_strict.xlsx", "passes.ods", "locked.xlsx"}) {
        const std::string whole = testing::text_of(folder / name);
        for (int i = 0; i < 500; ++i) {
            try {
                (void)read_workbook(spoilt(whole, random));
                ++read;
            } catch (const core::Error&) {
                ++refused;
            }
        }
    }
    EXPECT_EQ(read + refused, 2000U);
    EXPECT_GT(refused, 0U);
}

}  // namespace
}  // namespace roostward::io
