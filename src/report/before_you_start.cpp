#include "roostward/report/before_you_start.hpp"

#include <fmt/format.h>

#include <string>
#include <string_view>
#include <vector>

#include "html_text.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/evenings/settings.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::report {

namespace {

/// Common practice where no source is named.
struct Part {
    std::string_view title;  ///< a key
    std::vector<std::string> lines;
};

/// Lines of its own: the key of the title with .1, .2 …
Part part_of(std::string_view title, int lines) {
    Part part{title, {}};
    for (int i = 1; i <= lines; ++i)
        part.lines.push_back(core::said(fmt::format("{}.{}", title, i)));
    return part;
}

/// What stands on the cards too is said in the same words.
std::vector<Part> parts() {
    const survey::Settings usual;
    const std::string rule = core::said(
        "evenings.go_if", {{"coldest", usual.coldest.value()}, {"windiest", usual.windiest.value()}});
    Part evening = part_of("start.evening", 3);
    evening.lines.insert(evening.lines.begin() + 1, core::said("start.go_if", {{"rule", rule}}));
    Part teams = part_of("start.teams", 2);
    teams.lines.insert(teams.lines.begin(),
                       core::said("card.size", {{"count", core::in_words(evenings::Settings{}.team_size)}}));
    Part care = part_of("start.care", 4);
    for (int i = 5; i >= 2; --i)
        care.lines.insert(care.lines.begin(), core::said(fmt::format("card.care.{}", i)));
    care.lines.insert(care.lines.begin(), core::said("start.after", {{"line", core::said("card.care.1")}}));
    return {std::move(evening),        std::move(teams),         part_of("start.standing", 3),
            part_of("start.watch", 3), part_of("start.pass", 5), std::move(care)};
}

std::string items(const Part& part) {
    std::string out;
    for (const std::string& line : part.lines)
        out += "<li>" + html_text(line) + "</li>\n";
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
    for (const Part& part : parts())
        out += "<h2>" + html_text(core::said(part.title)) + "</h2>\n<ul>\n" + items(part) + "</ul>\n";
    return out + "</body></html>\n";
}

}  // namespace roostward::report
