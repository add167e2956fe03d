// What it costs to write the same flights down in simpler ways: how much of the best possible choice's true
// flight the five chosen trees get, over many parks, and the difference to places with bearings, park by
// park. Usage: notes_study [PARKS] [EVENINGS] [FIRST] By default the parks 1 to 200; three evenings.

#include <fmt/format.h>

#include <array>
#include <cstdlib>
#include <string_view>
#include <vector>

#include "parks/model/choice.hpp"
#include "parks/model/share.hpp"
#include "parks/model/written.hpp"
#include "roostward/activity/bandwidth.hpp"
#include "roostward/activity/bent_flights.hpp"
#include "roostward/core/parallel.hpp"

namespace {

using namespace roostward;
using parks::Way;

struct Named {
    Way way;
    std::string_view name;
};
constexpr std::array ways{Named{Way::with_bearings, "a place and a bearing each"},
                          Named{Way::from_the_station, "distance and direction, a bearing"},
                          Named{Way::squares_and_compass, "squares of 25 m, compass points"},
                          Named{Way::tallies, "tallies along sketched lines"},
                          Named{Way::without_bearings, "a place each"},
                          Named{Way::squares, "squares of 25 m"},
                          Named{Way::recorder, "heard somewhere in view"}};

struct Result {
    double share = 0.0, chosen = 0.0, h = 0.0;
};
using Results = std::array<Result, ways.size()>;

Result result_of(const parks::Park& park, Way way, std::uint64_t seed) {
    const survey::Survey noted = parks::survey_written(park, way, seed);
    const activity::Bandwidth bandwidth = activity::choose_bandwidth(noted, {}, core::Threads{1});
    const auto chosen = siting::in_order_of_site(parks::assess(
        park, activity::bend_flights(noted, core::Threads{1}), bandwidth, parks::park_choice()));
    return {parks::true_use(park, chosen) / parks::true_use(park, parks::best_choice(park)),
            static_cast<double>(chosen.size()), bandwidth.h.value()};
}

Results results_of(std::uint64_t seed, std::size_t evenings) {
    const parks::Park park = parks::make_park(seed, evenings);
    Results results;
    for (std::size_t i = 0; i < ways.size(); ++i)
        results[i] = result_of(park, ways[i].way, seed);
    return results;
}

}  // namespace

int main(int argc, char** argv) {
    const std::size_t count = argc > 1 ? std::strtoul(argv[1], nullptr, 10) : 200;
    const std::size_t evenings = argc > 2 ? std::strtoul(argv[2], nullptr, 10) : 3;
    const std::uint64_t first = argc > 3 ? std::strtoul(argv[3], nullptr, 10) : 1;
    std::vector<Results> results(count);
    core::parallel_for(count, 1, core::Threads{0}, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i)
            results[i] = results_of(first + i, evenings);
    });
    const auto estimate = [&](auto value) {
        std::vector<double> values;
        for (const Results& park : results)
            values.push_back(value(park));
        return parks::estimate_of(values);
    };
    fmt::print("{} parks from {} on, {} evenings\n", count, first, evenings);
    fmt::print("{:<36} share of the best  less than the first  chosen    h, m\n", "written down as");
    for (std::size_t i = 0; i < ways.size(); ++i) {
        const parks::Estimate share = estimate([i](const Results& park) { return park[i].share; });
        const parks::Estimate less =
            estimate([i](const Results& park) { return park[0].share - park[i].share; });
        const parks::Estimate chosen = estimate([i](const Results& park) { return park[i].chosen; });
        const parks::Estimate h = estimate([i](const Results& park) { return park[i].h; });
        fmt::print("{:<36}  {:.3f} +- {:.3f}     {:6.3f} +- {:.3f}     {:5.1f}   {:5.1f}\n", ways[i].name,
                   share.mean, share.half_width, less.mean, less.half_width, chosen.mean, h.mean);
    }
}
