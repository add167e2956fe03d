#!/usr/bin/env python3
"""Makes the spreadsheets of this folder, part by part as ECMA-376 and ISO/IEC 26300 describe them.

Python's own zipfile alone; the same bytes on every run. Run it in this folder: ./make.py
"""
import struct
import zipfile
from datetime import date, datetime, time
from xml.sax.saxutils import escape

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006/relationships"

# Cell styles of every XLSX here: the number of each is its place in this list.
FORMATS = ["general", "date", "time", "both", "elapsed", "percent", "built-in date", "built-in time"]
STYLES = f"""<styleSheet xmlns="{MAIN}"><numFmts count="5"><numFmt numFmtId="164" formatCode="dd/mm/yyyy"/>
<numFmt numFmtId="165" formatCode="hh:mm:ss"/><numFmt numFmtId="166" formatCode="yyyy\\-mm\\-dd\\ hh:mm"/>
<numFmt numFmtId="167" formatCode="[h]:mm"/><numFmt numFmtId="168" formatCode="0.0&quot; days&quot;"/></numFmts>
<cellStyleXfs><xf numFmtId="14"/></cellStyleXfs><cellXfs><xf numFmtId="0"/><xf numFmtId="164"/><xf numFmtId="165"/>
<xf numFmtId="166"/><xf numFmtId="167"/><xf numFmtId="9"/><xf numFmtId="14"/><xf numFmtId="21"/></cellXfs></styleSheet>"""


TYPES = "http://schemas.openxmlformats.org/package/2006/content-types"
WORKS = "application/vnd.openxmlformats-officedocument.spreadsheetml"


def content_types(parts):
    kinds = {"workbook": "sheet.main", "sheet": "worksheet", "styles": "styles", "sharedStrings": "sharedStrings"}
    overrides = ""
    for part in parts:
        kind = next((k for k in kinds if part.rsplit("/", 1)[1].startswith(k) and part.endswith(".xml")), None)
        if kind:
            overrides += f'<Override PartName="/{part}" ContentType="{WORKS}.{kinds[kind]}+xml"/>'
    return f'<Types xmlns="{TYPES}"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>{overrides}</Types>'


def packed(name, parts, method=zipfile.ZIP_DEFLATED):
    with zipfile.ZipFile(name, "w", method) as out:
        for part, text in parts.items():
            entry = zipfile.ZipInfo(part, (1980, 1, 1, 0, 0, 0))
            entry.compress_type = method
            out.writestr(entry, text)


def letters(column):
    text = ""
    while column >= 0:
        text = chr(ord("A") + column % 26) + text
        column = column // 26 - 1
    return text


def serial(moment, epoch_1904=False):
    """The serial date, by counting days from 1899-12-30 (from 1900-03-01 on) or from 1904-01-01."""
    if isinstance(moment, time):
        return (moment.hour * 3600 + moment.minute * 60 + moment.second) / 86400
    start = datetime(1904, 1, 1) if epoch_1904 else datetime(1899, 12, 30)
    whole = moment if isinstance(moment, datetime) else datetime(moment.year, moment.month, moment.day)
    days = whole - start
    return days.days + days.seconds / 86400


class Raw(str):
    """XML of a cell from behind its reference on: Raw('t="e"><v>#N/A</v>')."""


def xlsx_cell(reference, value, epoch_1904):
    if isinstance(value, Raw):
        return f'<c r="{reference}" {value}</c>'
    if isinstance(value, bool):
        return f'<c r="{reference}" t="b"><v>{int(value)}</v></c>'
    if isinstance(value, (date, time)):
        style = 3 if isinstance(value, datetime) else 1 if isinstance(value, date) else 2
        return f'<c r="{reference}" s="{style}"><v>{serial(value, epoch_1904)!r}</v></c>'
    if isinstance(value, str):
        return f'<c r="{reference}" t="inlineStr"><is><t>{escape(value)}</t></is></c>'
    return f'<c r="{reference}"><v>{value!r}</v></c>'


def xlsx_sheet(rows, epoch_1904=False, hidden_rows=(), columns="", merged=""):
    """`rows`: row number → cells; None for none."""
    body = ""
    for number, cells in rows.items():
        hidden = ' hidden="1"' if number in hidden_rows else ""
        body += f'<row r="{number}"{hidden}>' + "".join(
            xlsx_cell(f"{letters(i)}{number}", cell, epoch_1904) for i, cell in enumerate(cells) if cell is not None
        ) + "</row>"
    return f'<worksheet xmlns="{MAIN}">{columns}<sheetData>{body}</sheetData>{merged}</worksheet>'


def write_xlsx(name, sheets, epoch_1904=False, shared="", hidden=()):
    """`sheets`: name → XML."""
    entries = "".join(
        f'<sheet name="{escape(sheet)}" sheetId="{i}" r:id="rId{i}"{" state=" + chr(34) + "hidden" + chr(34) if sheet in hidden else ""}/>'
        for i, sheet in enumerate(sheets, 1))
    relations = "".join(
        f'<Relationship Id="rId{i}" Type="{RELATIONS}/worksheet" Target="worksheets/sheet{i}.xml"/>'
        for i in range(1, len(sheets) + 1))
    relations += f'<Relationship Id="rS" Type="{RELATIONS}/styles" Target="styles.xml"/>'
    if shared:
        relations += f'<Relationship Id="rT" Type="{RELATIONS}/sharedStrings" Target="sharedStrings.xml"/>'
    parts = {
        "_rels/.rels": f'<Relationships xmlns="{PACKAGE}"><Relationship Id="r1" Type="{RELATIONS}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
        "xl/workbook.xml": f'<workbook xmlns="{MAIN}" xmlns:r="{RELATIONS}"><workbookPr{" date1904=" + chr(34) + "1" + chr(34) if epoch_1904 else ""}/><sheets>{entries}</sheets></workbook>',
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{PACKAGE}">{relations}</Relationships>',
        "xl/styles.xml": STYLES,
    }
    if shared:
        parts["xl/sharedStrings.xml"] = f'<sst xmlns="{MAIN}">{shared}</sst>'
    for i, xml in enumerate(sheets.values(), 1):
        parts[f"xl/worksheets/sheet{i}.xml"] = xml
    packed(name, {"[Content_Types].xml": content_types(parts), **parts})


def write_ods(name, tables, styles="", manifest=""):
    spaces = " ".join(f'xmlns:{s}="urn:oasis:names:tc:opendocument:xmlns:{s}:1.0"' for s in ("office", "table", "text", "style"))
    spaces += ' xmlns:calcext="urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0"'
    content = f'<office:document-content office:version="1.2" {spaces}><office:automatic-styles>{styles}</office:automatic-styles><office:body><office:spreadsheet>{tables}</office:spreadsheet></office:body></office:document-content>'
    kind = "application/vnd.oasis.opendocument.spreadsheet"
    space = "urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"
    whole = f'<m:manifest xmlns:m="{space}" m:version="1.2"><m:file-entry m:full-path="/" m:media-type="{kind}"/><m:file-entry m:full-path="content.xml" m:media-type="text/xml">{manifest}</m:file-entry></m:manifest>'
    packed(name, {"mimetype": kind, "content.xml": content, "META-INF/manifest.xml": whole})


def ods_texts(cells):
    return "".join(f'<table:table-cell office:value-type="string"><text:p>{escape(c)}</text:p></table:table-cell>' for c in cells)


PASSES = ["date", "time", "watch", "lon", "lat", "bearing_deg"]
EVENING = date(2026, 6, 9)


def passes():
    rows = {1: PASSES}
    for i in range(4):
        rows[i + 2] = [EVENING, time(21, 46 + i, 46), "bridge-1", -1.897611 + i * 1e-4, 52.29792, 80 + i]
    return rows


# Clocks and dates as office programs keep them, and a date's format on a whole moment.
write_xlsx("passes.xlsx", {"Evening 1": xlsx_sheet(passes())})
write_xlsx("passes_1904.xlsx", {"Evening 1": xlsx_sheet(passes(), True)}, True)
moments = {1: ["time", "lon", "lat"]}
for i in range(4):
    moments[i + 2] = [Raw(f's="1"><v>{serial(datetime(2026, 6, 9, 21, 46 + i, 46))!r}</v>'), -1.897611 + i * 1e-4, 52.29792]
write_xlsx("passes_date_format.xlsx", {"Sheet1": xlsx_sheet(moments)})

# A date that stands once, in a cell merged over the evening's rows.
evening = {number: [None, *cells[1:]] if number > 2 else cells for number, cells in passes().items()}
write_xlsx("passes_merged.xlsx", {"Evening 1": xlsx_sheet(evening, merged='<mergeCells count="1"><mergeCell ref="A2:A5"/></mergeCells>')})

# Every cell a text, as an export without types makes it.
texts = {1: PASSES}
for i in range(4):
    texts[i + 2] = ["2026-06-09", f"21:{46 + i}:46", "bridge-1", f"{-1.897611 + i * 1e-4:.6f}", "52.297920", f"{80 + i}"]
write_xlsx("passes_all_text.xlsx", {"Sheet1": xlsx_sheet(texts)})

# What a tree officer's sheet looks like: titles over the header, blank rows, sums below, errors, formulas.
TREES = ["Tree no", "Lon", "Lat", "DBH (cm)", "Hollow", "Species"]
write_xlsx("trees_titled.xlsx", {"Trees": xlsx_sheet({
    1: ["Trees of Alder Reach Park"],
    2: ["Surveyed by the parks department", None, None, date(2025, 3, 1)],
    4: TREES,
    5: ["0101", -1.8956, 52.2982, 35.5, True, "Alnus glutinosa"],
    6: ["0102", -1.8957, 52.2983, Raw('><f>D5*2</f><v>71</v>'), False, "Alnus glutinosa"],
    9: ["0103", -1.8958, 52.2984, Raw('t="e"><f>1/0</f><v>#DIV/0!</v>'), True, "Tilia x europaea"],
    10: ["0104", -1.8959, 52.2985, Raw('><f>D5*3</f>'), False, Raw('t="str"><f>F9</f><v>Tilia x europaea</v>')],
    12: ["Total", None, None, 106.5],
    13: ["Average:", None, None, 53.25],
    14: ["Source: the department's own survey"],
}, merged='<mergeCells count="1"><mergeCell ref="A1:F1"/></mergeCells>')})

# Rows and columns that the sheet hides, and a column that the header does not name.
write_xlsx("trees_hidden.xlsx", {"Trees": xlsx_sheet({
    1: ["tree", "lon", "lat", "dbh_cm", None],
    2: ["A", -1.8956, 52.2982, 35, None],
    3: ["B", -1.8957, 52.2983, 40, "ask again"],
    4: ["C", -1.8958, 52.2984, 45, None],
}, hidden_rows=(3, 4), columns='<cols><col min="4" max="4" hidden="1"/></cols>')})

# Several sheets: two with rows, one of words, one hidden list of choices.
write_xlsx("several_sheets.xlsx", {
    "Read me": xlsx_sheet({1: ["These are the trees of two parks."], 2: ["Ask the department."]}),
    "North": xlsx_sheet({1: ["tree", "lon", "lat", "dbh_cm"], 2: ["N1", -1.8956, 52.2982, 35]}),
    "South": xlsx_sheet({1: ["tree", "lon", "lat", "dbh_cm"], 2: ["S1", -1.8956, 52.2982, 35], 3: ["S2", -1.8957, 52.2982, 45]}),
    "Choices": xlsx_sheet({1: ["condition", "code"], 2: ["good", 1]}),
}, hidden=("Choices",))

# As other writers make it: strict names with a prefix, targets from the root, no references, shared texts of
# several runs with a reading aid, and dates in words of ISO 8601.
STRICT = "http://purl.oclc.org/ooxml/spreadsheetml/main"
STRICT_RELATIONS = "http://purl.oclc.org/ooxml/officeDocument/relationships"
packed("trees_strict.xlsx", {
    "_rels/.rels": f'<Relationships xmlns="{PACKAGE}"><Relationship Id="r1" Type="{STRICT_RELATIONS}/officeDocument" Target="/office/book.xml"/></Relationships>',
    "office/book.xml": f'<x:workbook xmlns:x="{STRICT}" xmlns:q="{STRICT_RELATIONS}"><x:sheets><x:sheet name="Trees" sheetId="7" q:id="z"/></x:sheets></x:workbook>',
    "office/_rels/book.xml.rels": f'<Relationships xmlns="{PACKAGE}"><Relationship Id="z" Type="{STRICT_RELATIONS}/worksheet" Target="/office/deep/../one.xml"/><Relationship Id="s" Type="{STRICT_RELATIONS}/sharedStrings" Target="texts.xml"/></Relationships>',
    "office/texts.xml": f'<x:sst xmlns:x="{STRICT}"><x:si><x:t>tree</x:t></x:si><x:si><x:r><x:t>lo</x:t></x:r><x:r><x:t>n</x:t></x:r><x:rPh sb="0" eb="1"><x:t>aid</x:t></x:rPh></x:si><x:si><x:t>lat</x:t></x:si><x:si><x:t>inspected</x:t></x:si></x:sst>',
    "office/one.xml": f'<x:worksheet xmlns:x="{STRICT}"><x:sheetData><x:row><x:c t="s"><x:v>0</x:v></x:c><x:c t="s"><x:v>1</x:v></x:c><x:c t="s"><x:v>2</x:v></x:c><x:c t="s"><x:v>3</x:v></x:c></x:row><x:row><x:c><x:v>17</x:v></x:c><x:c><x:v>-1.8956</x:v></x:c><x:c><x:v>52.2982</x:v></x:c><x:c t="d"><x:v>2025-06-30</x:v></x:c></x:row></x:sheetData></x:worksheet>',
})

# OpenDocument: repeats that fill the sheet, comments, spaces, each kind of value; a hidden sheet.
DAY = 'office:value-type="date" office:date-value="2026-06-09"'
write_ods("passes.ods", f"""<table:table table:name="Evening 1"><table:table-column table:number-columns-repeated="6"/>
<table:table-row>{ods_texts(PASSES)}<table:table-cell table:number-columns-repeated="16378"/></table:table-row>
<table:table-row table:number-rows-repeated="2"><table:table-cell table:number-columns-repeated="16384"/></table:table-row>
<table:table-row><table:table-cell {DAY}><text:p>09.06.26</text:p></table:table-cell>
<table:table-cell office:value-type="time" office:time-value="PT21H46M45.999999999S"><text:p>21:46</text:p></table:table-cell>
<table:table-cell office:value-type="string"><office:annotation><text:p>not sure of this one</text:p></office:annotation><text:p>bridge<text:s/>one</text:p></table:table-cell>
<table:table-cell office:value-type="float" office:value="-1.897611"/><table:table-cell office:value-type="float" office:value="52.29792"/><table:table-cell office:value-type="float" office:value="80"/></table:table-row>
<table:table-row table:visibility="filter" table:number-rows-repeated="2"><table:table-cell office:value-type="date" office:date-value="2026-06-09T21:47:46"/>
<table:table-cell office:value-type="date" office:date-value="1899-12-30T21:47:46"/><table:table-cell/><table:table-cell office:value-type="float" office:value="-1.897511"/>
<table:table-cell office:value-type="float" office:value="52.29792"/><table:table-cell calcext:value-type="error" office:value-type="string" office:string-value=""><text:p>#N/A</text:p></table:table-cell></table:table-row>
<table:table-row table:number-rows-repeated="1048570"><table:table-cell table:number-columns-repeated="16384"/></table:table-row></table:table>
<table:table table:name="List" table:style-name="ta2"><table:table-row>{ods_texts(["code", "meaning"])}</table:table-row><table:table-row>{ods_texts(["1", "bat"])}</table:table-row></table:table>""",
    styles='<style:style style:name="ta2" style:family="table"><style:table-properties table:display="false"/></style:style>')

# Files that must be refused.
write_ods("repeated_without_end.ods", f"""<table:table table:name="Bomb"><table:table-row>{ods_texts(["tree", "lon"])}</table:table-row>
<table:table-row table:number-rows-repeated="1048575"><table:table-cell table:number-columns-repeated="16384" office:value-type="float" office:value="1"/></table:table-row></table:table>""")
bomb = xlsx_sheet({1: ["tree", "lon"]}).replace("</sheetData>", "<row/>" * 12_000_000 + "</sheetData>")
packed("unpacks_without_end.xlsx", {
    "_rels/.rels": f'<Relationships xmlns="{PACKAGE}"><Relationship Id="r1" Type="{RELATIONS}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
    "xl/workbook.xml": f'<workbook xmlns="{MAIN}" xmlns:r="{RELATIONS}"><sheets><sheet name="Bomb" sheetId="1" r:id="r1"/></sheets></workbook>',
    "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{PACKAGE}"><Relationship Id="r1" Type="{RELATIONS}/worksheet" Target="bomb.xml"/></Relationships>',
    "xl/bomb.xml": bomb}, zipfile.ZIP_BZIP2)
write_ods("locked.ods", "", manifest='<m:encryption-data m:checksum="x"/>')
compound = b"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1" + bytes(16) + struct.pack("<HHHHH", 0x3E, 3, 0xFFFE, 9, 6) + bytes(478)
open("old.xls", "wb").write(compound + "Workbook".encode("utf-16le") + bytes(112))
open("locked.xlsx", "wb").write(compound + "EncryptedPackage".encode("utf-16le") + bytes(96))
packed("a_letter.xlsx", {"letter.txt": "Dear all"})
