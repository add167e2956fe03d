// Figures held against what is true, over many parks: how stated flights an hour sum up beside the true ones,
// and how often the ranges hold the truth. A range should hold it 75 to 85 times in 100, and miss it 5 to 15
// times on either side; bins of under 300 trees are only reported. Usage: coverage_study [--from PARK]
// [--spread LOG_SD] [PARKS] [EVENINGS …] By default the parks 1 to 200; 1, 2, 3, 5 and 7 evenings that differ
// by 0.5.

#include <fmt/format.h>

#include <cstdlib>
#include <string_view>
#include <vector>

#include "parks/model/choice.hpp"
#include "parks/model/coverage.hpp"
#include "parks/model/park.hpp"
#include "roostward/core/parallel.hpp"

namespace {

using namespace roostward;

void print(std::size_t evenings, const char* trees, const char* figure,
           const std::vector<std::vector<parks::Held>>& held) {
    const parks::Calibration c = parks::calibration_of(held);
    fmt::print(
        "{:>8} {:<8} {:<8} {:>6} {:>7.3f} ± {:.3f} {:>7.3f} ± {:.3f} {:>6.3f} {:>6.3f} {:>8.1f} {:>8.1f}\n",
        evenings, trees, figure, c.ranges, c.ratio, c.ratio_error, c.held, c.held_error, c.below, c.above,
        c.median_width, c.interval_score);
}

void study(std::uint64_t from, std::size_t count, std::size_t evenings, double spread) {
    std::vector<parks::Coverage> parks(count);
    core::parallel_for(count, 1, core::Threads{0}, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            const parks::Park park = parks::make_park(from + i, evenings, spread);
            parks[i] = parks::coverage_of(
                park, activity::choose_bandwidth(parks::noted_in(park), {}, core::Threads{1}));
        }
    });
    std::size_t chosen = 0, with_range = 0;
    for (const auto& park : parks) {
        chosen += park.chosen.trees;
        with_range += park.chosen.flights.size();
    }
    const auto column = [&](auto figures) {
        std::vector<std::vector<parks::Held>> held;
        for (const auto& park : parks)
            held.push_back(figures(park));
        return held;
    };
    print(evenings, "watched", "flights", column([](const auto& p) { return p.watched.flights; }));
    print(evenings, "chosen", "flights", column([](const auto& p) { return p.chosen.flights; }));
    print(evenings, "watched", "metres", column([](const auto& p) { return p.watched.metres; }));
    print(evenings, "chosen", "metres", column([](const auto& p) { return p.chosen.metres; }));
    fmt::print("{:>8} {} of {} chosen trees have a range\n", evenings, with_range, chosen);
}

}  // namespace

int main(int argc, char** argv) {
    std::vector<std::string_view> words(argv + 1, argv + argc);
    std::uint64_t from = 1;
    double spread = parks::usual_evening_sd;
    while (words.size() > 1 && words[0].starts_with("--")) {
        if (words[0] == "--from") from = std::strtoull(words[1].data(), nullptr, 10);
        if (words[0] == "--spread") spread = std::strtod(words[1].data(), nullptr);
        words.erase(words.begin(), words.begin() + 2);
    }
    const std::size_t count = words.empty() ? 200 : std::strtoul(words[0].data(), nullptr, 10);
    std::vector<std::size_t> evenings;
    for (std::size_t i = 1; i < words.size(); ++i)
        evenings.push_back(std::strtoul(words[i].data(), nullptr, 10));
    if (evenings.empty()) evenings = {1, 2, 3, 5, 7};
    fmt::print("{} parks from {} on; log sd from evening to evening {}\n", count, from, spread);
    fmt::print(
        "evenings trees    figure   ranges stated/true        held            below  above   median    "
        "score\n");
    for (const std::size_t n : evenings)
        study(from, count, n, spread);
}
