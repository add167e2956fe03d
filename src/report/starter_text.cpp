#include "roostward/report/starter_text.hpp"

#include <fmt/format.h>

#include "roostward/core/catalogue.hpp"
#include "roostward/report/text_block.hpp"

namespace roostward::report {

std::string starter_text(const std::vector<LookedFile>& files, const std::vector<std::string>& written,
                         const std::vector<std::string>& told, const std::string& folder) {
    std::string text;
    std::size_t open = 0;
    for (const LookedFile& file : files) {
        const std::string rows = file.rows > 0 ? core::said_for(file.rows, "new.rows_looked_at") : "";
        text += wrapped(fmt::format("{} → {}{}", file.file, file.taken_for, rows), 4);
        for (const std::string& column : file.columns)
            text += wrapped(column, 6, "    ");
        for (const std::string& guess : file.confirm)
            text += wrapped(core::said("new.confirm", {{"guess", guess}}), 6, "  ! ");
        open += file.confirm.size();
    }
    if (!files.empty()) text += "\n";
    for (const std::string& sentence : told)
        text += wrapped(sentence, 2);
    text += wrapped(core::said("new.written", {{"folder", folder}, {"files", core::all_of(written)}}), 2);
    if (open > 0) text += wrapped(core::said_for(open, "new.guesses"), 2);
    return text + wrapped(core::said("new.next", {{"folder", folder}}), 2);
}

}  // namespace roostward::report
