"""The cases that are spreadsheets, written part by part: ECMA-376 and OpenDocument 1.2."""
import io
import zipfile

from text_tables import case

STYLES = ('<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><cellXfs count="3"><xf numFmtId="0"/>'
          '<xf numFmtId="14"/><xf numFmtId="21"/></cellXfs></styleSheet>')
DATE, CLOCK = 1, 2  # places in STYLES
RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"


def zipped(parts):
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        for name, text in parts.items():
            archive.writestr(zipfile.ZipInfo(name, (2026, 1, 1, 0, 0, 0)), text)
    return out.getvalue()


def cell(value, column, row):
    place = f'r="{chr(ord("A") + column)}{row}"'
    if value is None:
        return ""
    if isinstance(value, tuple):
        return f'<c {place} s="{value[1]}"><v>{value[0]}</v></c>'
    if isinstance(value, str):
        return f'<c {place} t="inlineStr"><is><t>{value}</t></is></c>'
    return f"<c {place}><v>{value}</v></c>"


def xlsx(*sheets):
    main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    parts = {
        "_rels/.rels": f'<Relationships><Relationship Id="a" Type="{RELATIONS}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
        "xl/workbook.xml": f'<workbook xmlns="{main}" xmlns:r="{RELATIONS}"><sheets>' +
        "".join(f'<sheet name="{name}" sheetId="{i}" r:id="s{i}"/>' for i, (name, _) in enumerate(sheets, 1)) + "</sheets></workbook>",
        "xl/_rels/workbook.xml.rels": "<Relationships>" + "".join(
            f'<Relationship Id="s{i}" Type="{RELATIONS}/worksheet" Target="worksheets/s{i}.xml"/>' for i in range(1, len(sheets) + 1)) +
        f'<Relationship Id="st" Type="{RELATIONS}/styles" Target="styles.xml"/></Relationships>',
        "xl/styles.xml": STYLES}
    for i, (_, rows) in enumerate(sheets, 1):
        parts[f"xl/worksheets/s{i}.xml"] = f'<worksheet xmlns="{main}"><sheetData>' + "".join(
            f'<row r="{r}">' + "".join(cell(v, c, r) for c, v in enumerate(row)) + "</row>" for r, row in enumerate(rows, 1)) + \
            "</sheetData></worksheet>"
    return zipped(parts)


def ods(rows):
    def one(value):
        if isinstance(value, str):
            return f'<table:table-cell office:value-type="string"><text:p>{value}</text:p></table:table-cell>'
        return f'<table:table-cell office:value-type="float" office:value="{value}"/>'
    office = "urn:oasis:names:tc:opendocument:xmlns:"
    body = "".join("<table:table-row>" + "".join(one(v) for v in row) + "</table:table-row>" for row in rows)
    return zipped({"mimetype": "application/vnd.oasis.opendocument.spreadsheet", "content.xml":
                   f'<office:document-content xmlns:office="{office}office:1.0" xmlns:table="{office}table:1.0" xmlns:text="{office}text:1.0">'
                   f'<office:body><office:spreadsheet><table:table table:name="Sheet1">{body}<table:table-row table:number-rows-repeated="1048000">'
                   '<table:table-cell table:number-columns-repeated="16384"/></table:table-row></table:table></office:spreadsheet></office:body>'
                   '</office:document-content>'})


def add():
    # 2026-06-09 is day 46182 after 1899-12-30 (ECMA-376 Part 1, 18.17.4.1); 21:46:46 is 78406/86400 of a day.
    day, clock = (46182, DATE), (78406 / 86400, CLOCK)
    case("A workbook with dates and clocks as numbers", "passes_book.xlsx", "passes",
         xlsx(("passes", [["date", "time", "lon", "lat", "count"], [day, clock, -1.8956, 52.2982, 2]])), 1, 0, [],
         ["0 time 2026-06-09T20:46:46Z", "0 count 2"])
    case("A list with a title above it and a total below", "titled_book.xlsx", "trees",
         xlsx(("list", [["Trees of an invented park"], [], ["Tree no", "lon", "lat", "dbh"], ["A1", -1.8956, 52.298, 40],
                        ["A2", -1.8957, 52.298, 42], ["Total", None, None, 82]])), 2, 1,
         ["header below the top", "total"], ["A1 dbh_cm 40", "A2 dbh_cm 42"])
    case("Several sheets, one of them named", "several_book.xlsx", "trees",
         xlsx(("notes", [["About", "this"], ["made", "up"]]), ("trees 2026", [["tree", "lon", "lat", "dbh"], ["A1", -1.8956, 52.298, 40]])),
         1, 0, [], ["A1 dbh_cm 40"], 'layer = "trees 2026"')
    case("Several sheets, and nobody says which", "which_book.xlsx", "trees",
         xlsx(("trees 2025", [["tree", "lon", "lat"], ["A1", -1.8956, 52.298]]), ("trees 2026", [["tree", "lon", "lat"], ["A1", -1.8956, 52.298]])),
         stops="trees 2025")
    case("Everything is text, Spanish", "texto.ods", "trees",
         ods([["id", "lon", "lat", "especie", "dbh"], ["1", "-1,8956", "52,298", "Aliso", "40,5 cm"], ["2", "-1,8957", "52,298", "Tocón", "30"]]),
         1, 1, ["no tree"], ["1 dbh_cm 40.5", "1 species Aliso"], 'fields = { species = "especie" }')
    case("Girth in inches in an OpenDocument sheet", "girth.ods", "trees",
         ods([["tree", "lon", "lat", "girth_in"], ["A1", -1.8956, 52.298, 50]]), 1, 0, [], ["A1 dbh_cm 40.425"],
         'fields = { dbh_cm = { from = "girth_in", unit = "in", girth = true } }')
