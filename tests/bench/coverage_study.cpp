// How often the ranges hold what is true, over many parks.
// Usage: coverage_study [PARKS]      (default 200 parks, with three and with seven evenings)

#include <fmt/format.h>

#include <cstdlib>
#include <vector>

#include "parks/model/choice.hpp"
#include "parks/model/coverage.hpp"
#include "parks/model/park.hpp"
#include "roostward/core/parallel.hpp"

int main(int argc, char** argv) {
    using namespace roostward;
    const std::size_t count = argc > 1 ? std::strtoul(argv[1], nullptr, 10) : 200;
    fmt::print(
        "ranges of suitable trees that hold the true rate (aim: 80 in 100)\n"
        "evenings  ranges  smoothed by K_h  within 10 m\n");
    for (const std::size_t evenings : {3, 7}) {
        std::vector<parks::Coverage> parks(count);
        core::parallel_for(count, 1, core::Threads{0}, [&](std::size_t begin, std::size_t end) {
            for (std::size_t i = begin; i < end; ++i) {
                const parks::Park park = parks::make_park(i + 1, evenings);
                parks[i] = parks::coverage_of(
                    park, activity::choose_bandwidth(parks::noted_in(park), {}, core::Threads{1}), i + 1);
            }
        });
        parks::Coverage all;
        for (const auto& park : parks) {
            all.ranges += park.ranges;
            all.hold_smoothed += park.hold_smoothed;
            all.hold_raw += park.hold_raw;
        }
        const auto share = [&](std::size_t held) {
            return static_cast<double>(held) / static_cast<double>(all.ranges);
        };
        fmt::print("{:>8} {:>7} {:>16.3f} {:>12.3f}\n", evenings, all.ranges, share(all.hold_smoothed),
                   share(all.hold_raw));
    }
}
