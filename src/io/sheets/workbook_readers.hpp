#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "roostward/io/cell_format.hpp"
#include "roostward/io/spreadsheet.hpp"
#include "sheets/xml_reader.hpp"

// The two kinds of spreadsheet, and what their readers share.
namespace roostward::io {

/// Office Open XML (ECMA-376), transitional or strict; `workbook` names its main part.
[[nodiscard]] Workbook read_xlsx(const ReadPart& read, const std::string& workbook);
/// OpenDocument (ISO/IEC 26300), from its content.xml.
[[nodiscard]] Workbook read_ods(const ReadPart& read);

/// The part that a package of Office Open XML calls its main one; empty where there is none.
[[nodiscard]] std::string main_part(const ReadPart& read);

/// Tells a handler of a whole part; false where there is none.
bool read_xml(const ReadPart& read, const std::string& name, XmlHandler& handler);

/// Puts a text into the present row, trimmed; nothing where it is blank, an error where it is one that
/// spreadsheet programs write ("#N/A").
void put_text(Workbook& book, std::uint64_t column, std::string_view text, std::uint64_t times = 1);

/// Adds to a text, which must not grow over what a cell can hold. Throws Error{inputs}.
void append_text(std::string& text, std::string_view more);

}  // namespace roostward::io
