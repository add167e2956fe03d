// How much of the true routes the flight lines show, and how much of the lines is true, over many parks.
// Usage: lines_study [PARKS] [EVENINGS] [H_M] [FIRST]
// Default 40 parks from seed 1 on, three evenings; H_M 0: h and tau by evenings.

#include <fmt/format.h>

#include <cstdint>
#include <cstdlib>
#include <vector>

#include "parks/model/choice.hpp"
#include "parks/model/lines.hpp"
#include "roostward/core/parallel.hpp"

namespace {

using namespace roostward;

struct Result {
    parks::LineTally tally;
    std::size_t lines = 0, false_lines = 0;
};

}  // namespace

int main(int argc, char** argv) {
    const std::size_t count = argc > 1 ? std::strtoul(argv[1], nullptr, 10) : 40;
    const std::size_t evenings = argc > 2 ? std::strtoul(argv[2], nullptr, 10) : 3;
    const double h = argc > 3 ? std::strtod(argv[3], nullptr) : 0.0;
    const std::uint64_t first = argc > 4 ? std::strtoul(argv[4], nullptr, 10) : 1;
    const auto lines_of = [h](const parks::Park& park) {
        if (h > 0.0) return parks::lines_of(park, {core::Metres(h), core::Hours(0.4)});
        return parks::lines_of(park, activity::choose_bandwidth(parks::noted_in(park), {}, core::Threads{1}));
    };
    std::vector<Result> results(count);
    core::parallel_for(count, 1, core::Threads{0}, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            const parks::Park park = parks::make_park(first + i, evenings);
            const auto lines = lines_of(park);
            results[i] = {parks::tally_of(park, lines), lines.size(),
                          lines_of(parks::constant_rate_park(first + i, evenings)).size()};
        }
    });
    parks::LineTally all;
    std::size_t lines = 0, with_false = 0;
    for (const Result& result : results) {
        all += result.tally;
        lines += result.lines;
        with_false += result.false_lines > 0 ? 1 : 0;
    }
    fmt::print("{} parks from seed {}, {} evenings, {}\n", count, first, evenings,
               h > 0.0 ? fmt::format("h = {:g} m, tau = 0.4 h", h) : "h and tau by evenings");
    fmt::print("true route length with a line within 10 m   {:.1f} % of {:.0f} m\n",
               100.0 * all.found_length / all.true_length, all.true_length);
    fmt::print("line length within 10 m of a true route     {:.1f} % of {:.0f} m in {} lines\n",
               100.0 * all.right_length / all.line_length, all.line_length, lines);
    fmt::print("parks of constant rate that give a line     {} of {}\n", with_false, count);
}
