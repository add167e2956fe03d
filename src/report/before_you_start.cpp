#include "roostward/report/before_you_start.hpp"

#include <fmt/format.h>

#include <array>
#include <string_view>

#include "html_text.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::report {

namespace {

/// Common practice where no source is named.
struct Part {
    std::string_view title;  ///< a key; those of its lines are this with .1, .2 …
    std::size_t lines;
};
constexpr std::array<Part, 6> parts{{{"start.evening", 4},
                                     {"start.teams", 3},
                                     {"start.standing", 3},
                                     {"start.watch", 3},
                                     {"start.pass", 5},
                                     {"start.care", 5}}};

std::string items(const Part& part) {
    std::string out;
    for (std::size_t i = 1; i <= part.lines; ++i)
        out += "<li>" + html_text(core::said(fmt::format("{}.{}", part.title, i))) + "</li>\n";
    return out;
}

}  // namespace

std::string before_you_start() {
    const std::string title = html_text(core::said("start.title"));
    std::string out = R"(<!DOCTYPE html>
<html lang=")" + html_text(core::said("language")) +
                      R"("><head><meta charset="utf-8"><title>)" + title + R"(</title>
<style>
@page { size: A4 portrait; margin: 14mm }
body { font: 10.5pt/1.32 sans-serif; max-width: 182mm; margin: 0 auto }
h1 { font-size: 16pt; margin: 0 0 2mm }
h2 { font-size: 11.5pt; margin: 3mm 0 1mm }
ul { margin: 0; padding-left: 5mm }
</style></head><body>
<h1>)" + title + R"(</h1>
)";
    for (const Part& part : parts)
        out += "<h2>" + html_text(core::said(part.title)) + "</h2>\n<ul>\n" + items(part) + "</ul>\n";
    return out + "</body></html>\n";
}

}  // namespace roostward::report
