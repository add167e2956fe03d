// How much of the best possible choice's true flight the five chosen trees get, over many parks.
// Usage: parks_study [PARKS] [EVENINGS]      (default 200 parks, three evenings)

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <vector>

#include "parks/model/share.hpp"
#include "roostward/core/parallel.hpp"

namespace {

using namespace roostward;

void print(const char* what, std::vector<double> values) {
    const parks::Estimate estimate = parks::estimate_of(values);
    std::sort(values.begin(), values.end());
    fmt::print("{:<34} {:.3f}  {:.3f} to {:.3f}  {:.2f}\n", what, estimate.mean,
               estimate.mean - estimate.half_width, estimate.mean + estimate.half_width,
               values[values.size() / 10]);
}

}  // namespace

int main(int argc, char** argv) {
    const std::size_t count = argc > 1 ? std::strtoul(argv[1], nullptr, 10) : 200;
    const std::size_t evenings = argc > 2 ? std::strtoul(argv[2], nullptr, 10) : 3;
    std::vector<parks::Shares> shares(count);
    core::parallel_for(count, 1, core::Threads{0}, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i)
            shares[i] =
                parks::shares_of(parks::make_park(i + 1, evenings), {core::Metres(7.0), core::Hours(0.4)});
    });
    const auto column = [&](auto value) {
        std::vector<double> values;
        for (const parks::Shares& share : shares)
            values.push_back(value(share));
        return values;
    };
    fmt::print("{} parks, {} evenings, h = 7 m, tau = 0.4 h\n", count, evenings);
    fmt::print("{:<34} mean   95 % interval   worst tenth\n", "share of the best choice");
    print("five random suitable trees", column([](const auto& s) { return s.random_tree; }));
    print("raw counts, 15 m", column([](const auto& s) { return s.raw_counts; }));
    print("roostward", column([](const auto& s) { return s.roostward; }));
    print("roostward less raw counts (paired)",
          column([](const auto& s) { return s.roostward - s.raw_counts; }));
}
