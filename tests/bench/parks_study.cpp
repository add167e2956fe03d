// How much of the best possible choice's true flight the five chosen trees get, over many parks, with h and τ
// by evenings and with fixed ones.
// Usage: parks_study [--from PARK] [PARKS] [EVENINGS …]
// By default the parks 1 to 200; 1, 2, 3, 5 and 7 evenings.

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <string_view>
#include <vector>

#include "parks/model/share.hpp"
#include "roostward/activity/bandwidth.hpp"
#include "roostward/core/parallel.hpp"

namespace {

using namespace roostward;

struct Study {
    parks::Shares fixed, by_evenings;
    activity::Bandwidth bandwidth;
};

Study study_of(std::uint64_t seed, std::size_t evenings) {
    const parks::Park park = parks::make_park(seed, evenings);
    Study study;
    study.bandwidth = activity::choose_bandwidth(parks::noted_in(park), {}, core::Threads{1});
    study.by_evenings = parks::shares_of(park, study.bandwidth);
    study.fixed = parks::shares_of(park, {core::Metres(7.0), core::Hours(0.4)});
    return study;
}

void print(const char* what, std::vector<double> values) {
    const parks::Estimate estimate = parks::estimate_of(values);
    std::sort(values.begin(), values.end());
    fmt::print("{:<36} {:>6.3f}  {:>6.3f} to {:>6.3f} {:>8.2f} {:>8.2f} {:>8.2f}\n", what, estimate.mean,
               estimate.mean - estimate.half_width, estimate.mean + estimate.half_width,
               values[values.size() / 10], values[values.size() / 2], values[values.size() * 9 / 10]);
}

void study(std::uint64_t from, std::size_t count, std::size_t evenings) {
    std::vector<Study> studies(count);
    core::parallel_for(count, 1, core::Threads{0}, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i)
            studies[i] = study_of(from + i, evenings);
    });
    const auto column = [&](auto value) {
        std::vector<double> values;
        for (const Study& one : studies)
            values.push_back(value(one));
        return values;
    };
    fmt::print("{} parks from {} on, {} evening{}\n", count, from, evenings, evenings == 1 ? "" : "s");
    fmt::print("{:<36}   mean   95 % interval     tenth   median    nine\n", "share of the best choice");
    print("five random suitable trees", column([](const auto& s) { return s.fixed.random_tree; }));
    print("raw counts, 15 m", column([](const auto& s) { return s.fixed.raw_counts; }));
    print("h = 7 m, tau = 0.4 h", column([](const auto& s) { return s.fixed.roostward; }));
    print("by evenings", column([](const auto& s) { return s.by_evenings.roostward; }));
    print("by evenings less fixed (paired)",
          column([](const auto& s) { return s.by_evenings.roostward - s.fixed.roostward; }));
    print("by evenings less raw counts (paired)",
          column([](const auto& s) { return s.by_evenings.roostward - s.by_evenings.raw_counts; }));
    print("h, m", column([](const auto& s) { return s.bandwidth.h.value(); }));
    print("tau, h", column([](const auto& s) { return s.bandwidth.shrink.value(); }));
}

}  // namespace

int main(int argc, char** argv) {
    std::vector<std::string_view> words(argv + 1, argv + argc);
    std::uint64_t from = 1;
    if (words.size() > 1 && words[0] == "--from") {
        from = std::strtoull(words[1].data(), nullptr, 10);
        words.erase(words.begin(), words.begin() + 2);
    }
    const std::size_t count = words.empty() ? 200 : std::strtoul(words[0].data(), nullptr, 10);
    std::vector<std::size_t> evenings;
    for (std::size_t i = 1; i < words.size(); ++i)
        evenings.push_back(std::strtoul(words[i].data(), nullptr, 10));
    if (evenings.empty()) evenings = {1, 2, 3, 5, 7};
    for (const std::size_t n : evenings)
        study(from, count, n);
}
