#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "sheets/workbook_readers.hpp"

// What the parts of an XLSX file say beside the sheets.
namespace roostward::io {

struct Relation {
    std::string type;    ///< the last word of it: "worksheet"
    std::string target;  ///< name of a part
};

/// By id; those of `part`, "" for the package itself.
[[nodiscard]] std::map<std::string, Relation, std::less<>> relations_of(const ReadPart& read,
                                                                        const std::string& part);

struct SheetEntry {
    std::string name;
    std::string relation;
    bool hidden = false;
};

struct WorkbookEntries {
    DateEpoch epoch = DateEpoch::year_1900;
    std::vector<SheetEntry> sheets;
};

[[nodiscard]] WorkbookEntries workbook_entries(const ReadPart& read, const std::string& part);

/// What each cell style shows; a style beyond the last shows numbers.
[[nodiscard]] std::vector<ShownAs> cell_styles(const ReadPart& read, const std::string& part);

/// The texts that cells share, by number.
[[nodiscard]] std::vector<std::string_view> shared_texts(const ReadPart& read, const std::string& part,
                                                         TextPool& pool);

}  // namespace roostward::io
