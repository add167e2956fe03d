// How much of the best possible choice's true flight the five chosen trees get, over many parks, with h and τ
// by evenings and with fixed ones.
// Usage: parks_study [PARKS] [EVENINGS …]      (default 200 parks; 1, 2, 3, 5 and 7 evenings)

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
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
    study.bandwidth = activity::choose_bandwidth(survey::match(park.passes, {}, park.watches, {}, {}).survey,
                                                 {}, core::Threads{1});
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

void study(std::size_t count, std::size_t evenings) {
    std::vector<Study> studies(count);
    core::parallel_for(count, 1, core::Threads{0}, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i)
            studies[i] = study_of(i + 1, evenings);
    });
    const auto column = [&](auto value) {
        std::vector<double> values;
        for (const Study& one : studies)
            values.push_back(value(one));
        return values;
    };
    fmt::print("{} parks, {} evening{}\n", count, evenings, evenings == 1 ? "" : "s");
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
    const std::size_t count = argc > 1 ? std::strtoul(argv[1], nullptr, 10) : 200;
    std::vector<std::size_t> evenings;
    for (int i = 2; i < argc; ++i)
        evenings.push_back(std::strtoul(argv[i], nullptr, 10));
    if (evenings.empty()) evenings = {1, 2, 3, 5, 7};
    for (const std::size_t n : evenings)
        study(count, n);
}
