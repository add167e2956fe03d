// Sun hours: the path of the sun, once for a site, and one tree with a horizon of 5° sectors and 16 facings.

#include <benchmark/benchmark.h>

#include <vector>

#include "roostward/core/random.hpp"
#include "roostward/sun/hours.hpp"

namespace {

using namespace roostward;
using core::Degrees;

const Degrees park_latitude(51.5);

void path_of_a_site(benchmark::State& state) {
    for (auto _ : state) {
        const sun::SunPath path(park_latitude);
        benchmark::DoNotOptimize(&path);
    }
}

void one_tree(benchmark::State& state) {
    core::RandomStream random(1, "bench");
    std::vector<std::vector<Degrees>> horizons(1000, std::vector<Degrees>(72));
    for (auto& horizon : horizons)
        for (Degrees& elevation : horizon)
            elevation = Degrees(random.uniform(0.0, 60.0));

    const sun::SunPath path(park_latitude);
    std::size_t tree = 0;
    for (auto _ : state) {
        const sun::SunOverHorizon sun = path.over(horizons[tree++ % horizons.size()]);
        for (int facing = 0; facing < 16; ++facing) {
            const sun::FaceSun face = sun.on_face(Degrees(22.5 * facing));
            benchmark::DoNotOptimize(&face);
        }
    }
}

BENCHMARK(path_of_a_site)->Unit(benchmark::kMillisecond);
BENCHMARK(one_tree)->Unit(benchmark::kMicrosecond);

}  // namespace
