#include "roostward/report/before_you_start.hpp"

#include <array>
#include <string_view>

namespace roostward::report {

namespace {

struct Part {
    std::string_view title;
    std::string_view lines;  ///< a sentence or two each, parted by "|"
};

/// Common practice where no source is named.
constexpr std::array<Part, 6> parts = {{
    {"Before the evening",
     "Go on three evenings or more, better five to seven. Three tell which trees come first, never how many "
     "animals there are.|"
     "Choose dry evenings of 10 °C or more with little wind (up to 5 m/s). Wet, cold and windy evenings are "
     "left out of the answer.|"
     "Walk the place by daylight. Choose where to stand: one view each. Cover both ends of a line of trees, "
     "and a place where you expect nothing.|"
     "Ask the landowner. Tell somebody where you are and when you will be back."},
    {"Teams of two",
     "Nobody watches alone. Bring a second phone, a torch and warm clothes. Agree on a time to check in and "
     "on the way out. Leave if you are uneasy.|"
     "Never stand on a carriageway, nor within 5 m of open water.|"
     "One looks, one writes. Keep the torch down and dim."},
    {"How to stand",
     "Be in your place 15 minutes before sunset (Bat Workers' Manual 2004), earlier under cloud. Stay until "
     "90 minutes after it, longer for late animals.|"
     "Stay on one spot and look the same way. If you move, end the watch and begin a new one.|"
     "Use the same places at the same hours on every evening where you can."},
    {"What to write of the watch",
     "Date, place, who you are, start and end, temperature, wind, rain, and which way you looked.|"
     "How far you could see an animal pass, in metres: pace it out. This is as important as the animals. It "
     "gets less as it gets dark: write what held for most of the time.|"
     "An evening on which nothing passed is a result. Write the watch down all the same."},
    {"What to write of each pass",
     "The time, to the minute or better. The watch that you saw it from.|"
     "Where the animal was, not where you stood: a square of the map, the nearest tree's tag, or the "
     "distance and the way you looked. If you only heard it, write so.|"
     "Which way it flew TO, as a compass word, and whether that is true north or your compass. If you do not "
     "know, leave it empty.|"
     "How many passed together. What it did: commuting, feeding to and fro, coming out of a tree, going in. "
     "One that feeds round you is one animal: say feeding.|"
     "Two people who see the same animal both write it down."},
    {"Take care",
     "Never touch a bat. A bite or scratch: wash with soap and water for at least 15 minutes and seek urgent "
     "care, even if vaccinated (Queensland Health).|"
     "Bats and roosts are often protected even when empty. Where animals come out of a tree: note it, keep "
     "away, tell a licensed person. Do not climb, fix or prune.|"
     "Clean shoes and gear between sites. Do not show roosts on public maps.|"
     "What comes out is a desk ranking. A qualified arborist must inspect each tree before anyone climbs or "
     "fixes to it. Boxes do not replace old trees, and the animals may never use them.|"
     "Agree now who will look after the boxes in year 5."},
}};

std::string items(std::string_view lines) {
    std::string out;
    while (!lines.empty()) {
        const std::size_t bar = std::min(lines.find('|'), lines.size());
        out += "<li>" + std::string(lines.substr(0, bar)) + "</li>\n";
        lines.remove_prefix(std::min(bar + 1, lines.size()));
    }
    return out;
}

}  // namespace

std::string before_you_start() {
    std::string out = R"(<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><title>Before you start</title>
<style>
@page { size: A4 portrait; margin: 14mm }
body { font: 10.5pt/1.32 sans-serif; max-width: 182mm; margin: 0 auto }
h1 { font-size: 16pt; margin: 0 0 2mm }
h2 { font-size: 11.5pt; margin: 3mm 0 1mm }
ul { margin: 0; padding-left: 5mm }
</style></head><body>
<h1>Before you start</h1>
)";
    for (const Part& part : parts)
        out += "<h2>" + std::string(part.title) + "</h2>\n<ul>\n" + items(part.lines) + "</ul>\n";
    return out + "</body></html>\n";
}

}  // namespace roostward::report
