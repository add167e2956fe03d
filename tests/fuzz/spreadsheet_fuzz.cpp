#include "roostward/io/spreadsheet.hpp"

#include <map>

#include "fuzz/fuzzing.hpp"
#include "sheets/sheet_table.hpp"

namespace {

using namespace roostward;
using Parts = std::map<std::string, std::string, std::less<>>;

/// An XLSX file whose parts are all honest; one of them is replaced.
Parts honest_parts() {
    return {{"_rels/.rels", R"(<R><Relationship Id="a" Type="/officeDocument" Target="b.xml"/></R>)"},
            {"b.xml", R"(<w xmlns:r="relationships"><sheet name="S" r:id="i"/></w>)"},
            {"_rels/b.xml.rels", R"(<R><Relationship Id="i" Type="/worksheet" Target="sheet.xml"/>
                <Relationship Id="s" Type="/styles" Target="styles.xml"/>
                <Relationship Id="t" Type="/sharedStrings" Target="texts.xml"/></R>)"},
            {"styles.xml",
             R"(<s><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="46"/></cellXfs></s>)"},
            {"texts.xml", "<s><si><t>tree</t></si><si><t>lon</t></si></s>"},
            {"sheet.xml", R"(<w><sheetData><row><c t="s"><v>0</v></c><c t="s"><v>1</v></c></row>
                <row><c s="1"><v>46182.9</v></c><c s="2"><v>1.5</v></c></row></sheetData></w>)"}};
}

/// The first byte says which part of a file the others are.
io::Workbook read(std::string_view bytes) {
    const std::string_view rest = bytes.substr(1);
    Parts parts = honest_parts();
    switch (bytes[0] % 5) {
        case 0:
            parts = {{"content.xml", std::string(rest)}};
            break;
        case 1:
            parts["sheet.xml"] = rest;
            break;
        case 2:
            parts["styles.xml"] = rest;
            break;
        case 3:
            return io::read_workbook(rest);
        default:
            parts["texts.xml"] = rest;
    }
    return io::read_workbook([&](const std::string& name, const auto& take) {
        const auto part = parts.find(name);
        if (part != parts.end()) take(part->second);
        return part != parts.end();
    });
}

void require_order(const io::Sheet& sheet) {
    for (std::size_t i = 0; i < sheet.size(); ++i) {
        const io::SheetRow row = sheet.row(i);
        fuzz::require(!row.cells.empty());
        for (std::size_t k = 1; k < row.cells.size(); ++k)
            fuzz::require(row.cells[k - 1].column <= row.cells[k].column);
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0) return 0;
    fuzz::allow_refusal([&] {
        const io::Workbook book = read(fuzz::text_of(data, size));
        for (const io::Sheet& sheet : book.sheets)
            require_order(sheet);
        const io::SheetTable table = io::table_in(book, "");
        fuzz::require(table.columns.size() == table.at.size() && !table.columns.empty());
        fuzz::require(table.header < book.sheets[table.sheet].size());
    });
    return 0;
}
