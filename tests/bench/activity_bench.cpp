// Flight density on a grid and at trees, Gaussian of 15 m, 1 m cells, all cores. Each case reports its
// largest error against the direct double-precision sum at a sample of places, as a share of the largest
// value there, and what this machine needs at the least, measured in the same run: for a grid, reading every
// piece once and filling fresh memory of the grid's size; at trees, one kernel for each piece within reach.

#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <numbers>
#include <vector>

#include "roostward/activity/by_evenings.hpp"
#include "roostward/activity/flight_density.hpp"
#include "roostward/activity/flown_grid.hpp"
#include "roostward/activity/kernel.hpp"
#include "roostward/core/random.hpp"
#include "roostward/core/vector_clones.hpp"
#include "roostward/geo/shape.hpp"

namespace {

using namespace roostward;
using core::PlanePoint;

constexpr double h = 15.0;
constexpr core::Threads all_cores{0};

PlanePoint somewhere(core::RandomStream& random, double side) {
    const double east = random.uniform(0.0, side), north = random.uniform(0.0, side);
    return {east, north};
}

/// Flights anywhere on a square: points of 30 m, or pieces of 30 m along a random bearing.
survey::Survey flights_on(double side, std::size_t count, std::uint32_t evenings, bool bearings,
                          core::RandomStream random = {1, "bench"}) {
    survey::Survey survey;
    for (std::uint32_t n = 0; n < evenings; ++n) {
        survey.evenings.push_back({std::chrono::year(2031) / 6 / (1 + n)});
        survey::Watch watch;
        watch.path = {{side / 2.0, side / 2.0}};
        watch.end = core::Instant(std::chrono::hours(1));
        watch.range = core::Metres(side / 4.0);
        survey.watches.push_back(watch);
        survey.watch_evening.push_back(n);
    }
    for (std::size_t i = 0; i < count; ++i) {
        survey::Flight flight;
        const PlanePoint at = somewhere(random, side);
        const core::Degrees bearing(random.uniform(0.0, 360.0));
        flight.path = {at};
        if (bearings)
            flight.path = {core::moved(at, bearing, core::Metres(-15.0)),
                           core::moved(at, bearing, core::Metres(15.0))};
        flight.length = core::Metres(30.0);
        flight.count = 1.0 + static_cast<double>(random.below(3));
        flight.evening = static_cast<std::uint32_t>(random.below(evenings));
        survey.flights.push_back(std::move(flight));
    }
    return survey;
}

double direct_sum(const std::vector<activity::Piece>& pieces, PlanePoint x, std::uint32_t evening) {
    double sum = 0.0;
    for (const activity::Piece& piece : pieces) {
        if (piece.evening != evening) continue;
        const double dx = x.easting - piece.middle.easting, dy = x.northing - piece.middle.northing;
        const double s = piece.width, along = dx * piece.east + dy * piece.north;
        if (piece.half_length == 0.0) {
            sum +=
                piece.weight * std::exp(-(dx * dx + dy * dy) / (2 * s * s)) / (2 * std::numbers::pi * s * s);
            continue;
        }
        const double across = dx * piece.north - dy * piece.east, u = 1.0 / (s * std::numbers::sqrt2);
        sum += piece.weight * std::exp(-across * across * u * u) * std::numbers::inv_sqrtpi * u * 0.5 *
               (std::erf((along + piece.half_length) * u) - std::erf((along - piece.half_length) * u));
    }
    return sum;
}

/// Largest difference as a share of the largest of the direct sums.
class Error {
 public:
    void add(double ours, double direct) {
        worst_ = std::max(worst_, std::abs(ours - direct));
        largest_ = std::max(largest_, direct);
    }
    [[nodiscard]] double share() const { return worst_ / largest_; }

 private:
    double worst_ = 0.0, largest_ = 0.0;
};

/// Wandering tracks of 200 vertices, 3 m apart.
survey::Survey tracks_on(double side, std::size_t count) {
    core::RandomStream random(5, "tracks");
    survey::Survey survey;
    survey.evenings.push_back({std::chrono::year(2031) / 6 / 1});
    for (std::size_t i = 0; i < count; ++i) {
        survey::Flight flight;
        flight.noted_in = survey::NotedIn::tracks;
        flight.path = {somewhere(random, side)};
        core::Degrees bearing(random.uniform(0.0, 360.0));
        while (flight.path.size() < 200) {
            bearing = core::Degrees(bearing.value() + 15.0 * random.normal());
            flight.path.push_back(core::moved(flight.path.back(), bearing, core::Metres(3.0)));
        }
        flight.length = geo::length_of(flight.path);
        survey.flights.push_back(std::move(flight));
    }
    return survey;
}

using Pieces = std::vector<activity::Piece>;

Pieces pieces_of(const survey::Survey& survey) {
    return activity::pieces_of(survey, core::Metres(h), core::Metres(4.0 * h));
}

double milliseconds_of(const auto& work) {
    double least = 1e9;
    for (int i = 0; i < 3; ++i) {
        const auto begin = std::chrono::steady_clock::now();
        work();
        least = std::min(
            least,
            std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count());
    }
    return least;
}

/// Every piece read once, and a fresh grid filled.
double least_on_grid(const Pieces& pieces, std::size_t cells) {
    return milliseconds_of([&] {
        double sum = 0.0;
        for (const auto& piece : pieces)
            sum += piece.weight;
        std::vector<float> grid(cells, static_cast<float>(sum));
        benchmark::DoNotOptimize(grid.data());
    });
}

ROOSTWARD_VECTOR_CLONES
void kernels(const double* squared, double* value, std::size_t n) {
    for (std::size_t i = 0; i < n; ++i)
        value[i] = activity::point_kernel(squared[i], h);
}

/// So many kernels of numbers that lie in the cache, on all cores.
double least_at_trees(double kernels_wanted) {
    constexpr std::size_t run = 1024;
    const auto runs = static_cast<std::size_t>(kernels_wanted / static_cast<double>(run));
    return milliseconds_of([runs] {
        core::parallel_for(runs, 1024, all_cores, [](std::size_t begin, std::size_t end) {
            std::vector<double> squared(run, 100.0), value(run);
            for (std::size_t i = begin; i < end; ++i) {
                kernels(squared.data(), value.data(), run);
                benchmark::DoNotOptimize(value.data());
            }
        });
    });
}

void on_grid(benchmark::State& state, const Pieces& pieces, std::size_t cells) {
    const core::Grid grid{{0.0, static_cast<double>(cells)}, core::Metres(1.0), cells, cells};
    std::vector<float> flown;
    for (auto _ : state) {
        flown = std::vector<float>();
        flown = activity::flown_on(grid, pieces, all_cores);
        benchmark::DoNotOptimize(flown.data());
    }
    core::RandomStream random(2, "sample");
    Error error;
    for (int i = 0; i < 100; ++i) {
        const core::Cell cell{random.below(cells), random.below(cells)};
        error.add(static_cast<double>(flown[grid.index(cell)]), direct_sum(pieces, grid.centre(cell), 0));
    }
    state.counters["error"] = error.share();
    flown = std::vector<float>();
    state.counters["least_ms"] = least_on_grid(pieces, grid.size());
}

/// The pieces alone stay in memory: their flights are made and left a few at a time.
void flights_on_grid(benchmark::State& state, std::size_t count, std::size_t cells, bool bearings) {
    constexpr std::size_t at_once = 10'000;
    Pieces pieces;
    pieces.reserve(count);
    for (std::size_t begin = 0; begin < count; begin += at_once) {
        const Pieces some = pieces_of(
            flights_on(static_cast<double>(cells), at_once, 1, bearings, {1 + begin / at_once, "bench"}));
        pieces.insert(pieces.end(), some.begin(), some.end());
    }
    on_grid(state, pieces, cells);
}

void tracks_on_grid(benchmark::State& state, std::size_t count, std::size_t cells) {
    on_grid(state, pieces_of(tracks_on(static_cast<double>(cells), count)), cells);
}

void at_trees(benchmark::State& state, std::size_t trees, std::size_t count, std::uint32_t evenings) {
    constexpr double side = 2000.0;
    const auto survey = flights_on(side, count, evenings, false);
    const activity::FlightDensity density(survey, {core::Metres(h), core::Hours(0.4)}, {});
    core::RandomStream random(3, "trees");
    std::vector<PlanePoint> stems(trees);
    for (PlanePoint& stem : stems)
        stem = somewhere(random, side);
    activity::EveningTable table;
    for (auto _ : state) {
        table = density.at(stems, all_cores);
        benchmark::DoNotOptimize(table.flown.data());
    }
    const Pieces pieces = pieces_of(survey);
    Error error;
    for (std::size_t i = 0; i < trees; i += trees / 50)
        for (std::uint32_t n = 0; n < evenings; ++n)
            error.add(table.flown[table.at(i, n)], direct_sum(pieces, stems[i], n));
    state.counters["error"] = error.share();
    const double reach = activity::kernel_reach * h;
    const double within_reach = static_cast<double>(count) * std::numbers::pi * reach * reach / (side * side);
    state.counters["least_ms"] = least_at_trees(static_cast<double>(trees) * within_reach);
}

/// Flights about straight routes, 6 m to either side, seen from 64 stations of 60 m that stand elsewhere each
/// evening: points, or pieces of 60 m along the route.
survey::Survey flights_along_routes(double side, std::size_t count, std::uint32_t evenings, bool bearings) {
    constexpr double range = 60.0, spread = 6.0;
    constexpr std::size_t stations = 64, routes = 20;
    core::RandomStream random(4, "routes");
    std::vector<PlanePoint> through(routes);
    std::vector<core::Degrees> bearing(routes);
    for (std::size_t r = 0; r < routes; ++r) {
        through[r] = somewhere(random, side);
        bearing[r] = core::Degrees(random.uniform(0.0, 360.0));
    }
    survey::Survey survey;
    for (std::uint32_t n = 0; n < evenings; ++n) {
        survey.evenings.push_back({std::chrono::year(2031) / 6 / (1 + n)});
        for (std::size_t s = 0; s < stations; ++s) {
            survey::Watch watch;
            watch.path = {somewhere(random, side)};
            watch.end = core::Instant(std::chrono::hours(1));
            watch.range = core::Metres(range);
            survey.watches.push_back(watch);
            survey.watch_evening.push_back(n);
        }
    }
    while (survey.flights.size() < count) {
        const std::size_t w = random.below(survey.watches.size()), r = random.below(routes);
        const PlanePoint station = survey.watches[w].path.front();
        const core::Degrees aside(bearing[r].value() + 90.0);
        const PlanePoint along =
            core::moved(through[r], bearing[r], core::Metres(random.uniform(-side, side)));
        const PlanePoint at = core::moved(along, aside, core::Metres(spread * random.normal()));
        if (random.uniform() >= std::exp(-core::squared_distance(at, station) / (2.0 * range * range)))
            continue;
        survey::Flight flight;
        flight.path = {at};
        if (bearings)
            flight.path = {core::moved(at, bearing[r], core::Metres(-0.5 * range)),
                           core::moved(at, bearing[r], core::Metres(0.5 * range))};
        flight.length = core::Metres(range);
        flight.watch = static_cast<std::uint32_t>(w);
        flight.evening = survey.watch_evening[w];
        survey.flights.push_back(std::move(flight));
    }
    return survey;
}

/// Its error is measured by the tests, against the direct sum.
void by_evenings(benchmark::State& state, std::size_t count, std::uint32_t evenings, bool bearings) {
    const auto survey = flights_along_routes(2000.0, count, evenings, bearings);
    activity::EveningSearch search;
    for (auto _ : state) {
        search = activity::search_by_evenings(survey, {}, all_cores);
        benchmark::DoNotOptimize(search);
    }
    state.counters["h"] = search.h.value();
    state.counters["shrink"] = search.shrink.value();
    state.counters["trials"] = static_cast<double>(search.trials.size());
}

void measured(benchmark::internal::Benchmark* benchmark) {
    benchmark->Unit(benchmark::kMillisecond)->UseRealTime();
}

BENCHMARK_CAPTURE(flights_on_grid, A, 10'000, 1000, false)->Apply(measured);
BENCHMARK_CAPTURE(flights_on_grid, B, 100'000, 2000, false)->Apply(measured);
BENCHMARK_CAPTURE(flights_on_grid, C, 1'000'000, 4000, false)->Apply(measured);
BENCHMARK_CAPTURE(tracks_on_grid, C_tracks, 10'000, 4000)->Apply(measured);
BENCHMARK_CAPTURE(flights_on_grid, B_with_bearings, 100'000, 2000, true)->Apply(measured);
BENCHMARK_CAPTURE(at_trees, D, 100'000, 100'000, 12)->Apply(measured);
BENCHMARK_CAPTURE(by_evenings, E, 100'000, 12, false)->Apply(measured);
BENCHMARK_CAPTURE(by_evenings, E_with_bearings, 100'000, 12, true)->Apply(measured);

}  // namespace
