#pragma once

#include <string>
#include <vector>

namespace roostward::report {

/// A file that was looked at, in words for a terminal.
struct LookedFile {
    std::string file;
    std::string taken_for;  ///< layer of the site file, or "not used"
    std::size_t rows = 0;
    std::vector<std::string> columns;  ///< "dbh_cm ← STU (girth, in cm)"
    std::vector<std::string> confirm;  ///< each guess with its evidence
};

/// What `new` prints. `written` are the names of the files in `folder`; `told` is about what was not written.
[[nodiscard]] std::string starter_text(const std::vector<LookedFile>& files,
                                       const std::vector<std::string>& written,
                                       const std::vector<std::string>& told, const std::string& folder);

}  // namespace roostward::report
