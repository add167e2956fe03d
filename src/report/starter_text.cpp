#include "roostward/report/starter_text.hpp"

#include <fmt/format.h>

#include "roostward/report/text_block.hpp"

namespace roostward::report {

std::string starter_text(const std::vector<LookedFile>& files, const std::vector<std::string>& written,
                         const std::vector<std::string>& said, const std::string& folder) {
    std::string text;
    std::size_t open = 0;
    for (const LookedFile& file : files) {
        const std::string rows =
            file.rows > 0 ? fmt::format(", {} {} looked at", file.rows, file.rows == 1 ? "row" : "rows") : "";
        text += wrapped(fmt::format("{} → {}{}", file.file, file.taken_for, rows), 4);
        for (const std::string& column : file.columns)
            text += wrapped(column, 6, "    ");
        for (const std::string& guess : file.confirm)
            text += wrapped("confirm: " + guess, 6, "  ! ");
        open += file.confirm.size();
    }
    if (!files.empty()) text += "\n";
    for (const std::string& sentence : said)
        text += wrapped(sentence, 2);
    text += wrapped(fmt::format("Written to {}: {}.", folder, listed(written)), 2);
    if (open > 0)
        text += wrapped(
            open == 1 ? "One guess to confirm: it stands below CONFIRM in site.toml."
                      : fmt::format("{} guesses to confirm: they stand below CONFIRM in site.toml.", open),
            2);
    return text +
           wrapped(
               fmt::format(
                   "Next: read before_you_start.html, fill in site.toml, then: roostward check {}/site.toml",
                   folder),
               2);
}

}  // namespace roostward::report
