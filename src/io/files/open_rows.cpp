#include <algorithm>
#include <array>
#include <string>
#include <string_view>

#include "files/input_file.hpp"
#include "files/row_sources.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::io {

std::vector<RowTrouble> encoding_notes(Encoding encoding) {
    if (encoding != Encoding::cp1252) return {};
    return {{"not UTF-8", "", core::said("finding.not_utf8")}};
}

bool is_spreadsheet(const InputSource& source) {
    // The old and the binary kind too: the reader says how to save them.
    constexpr std::array<std::string_view, 8> kinds = {"xlsx", "xlsm", "xltx", "xltm",
                                                       "xls",  "xlsb", "ods",  "ots"};
    return std::find(kinds.begin(), kinds.end(), extension_of(source)) != kinds.end();
}

std::unique_ptr<RowSource> open_rows(const InputSource& source) {
    constexpr std::array<std::string_view, 5> text = {"csv", "txt", "tsv", "tab", "psv"};
    const std::string extension = extension_of(source);
    if (std::find(text.begin(), text.end(), extension) != text.end()) return open_text_rows(source);
    if (is_spreadsheet(source)) return open_sheet_rows(source);
    if (extension == "geojson" || extension == "json") {
        if (std::unique_ptr<RowSource> rows = open_geojson_rows(source)) return rows;
    }
    return open_ogr_rows(source);
}

}  // namespace roostward::io
