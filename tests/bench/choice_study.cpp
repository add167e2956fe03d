// The best 50 of 100,000 trees that can be chosen, 30 m apart: how long it takes, and what is proven of the
// set.

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <functional>
#include <numbers>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "choice_solve.hpp"
#include "roostward/core/random.hpp"

namespace {

using namespace roostward;
using siting::ChoiceProblem;
using siting::Option;

constexpr std::size_t trees = 100'000, sites = 50;

struct Study {
    std::string_view name;
    double side_m;
    bool in_clumps;  ///< of 200 trees, 20 m wide
    bool by_lines;   ///< good where it is near one of six straight flight lines, 15 m wide
    bool quotas;     ///< at most 2 of each of 20 owners, and 13 in each of 5 zones
    bool budget;     ///< two thirds of what 50 average trees cost
};

/// One of the straight lines along which animals fly.
struct Line {
    core::PlanePoint through;
    double bearing = 0.0, strength = 0.0;

    [[nodiscard]] double felt_at(core::PlanePoint place) const {
        const double away = (place.easting - through.easting) * std::cos(bearing) -
                            (place.northing - through.northing) * std::sin(bearing);
        return strength * std::exp(-away * away / (2.0 * 15.0 * 15.0));
    }
};

ChoiceProblem problem_of(const Study& study) {
    core::RandomStream random(1, study.name);
    const auto anywhere = [&] {
        const double easting = random.uniform(0.0, study.side_m);
        return core::PlanePoint{easting, random.uniform(0.0, study.side_m)};
    };
    std::vector<Line> lines(6);
    for (Line& line : lines)
        line = {anywhere(), random.uniform(0.0, std::numbers::pi), random.uniform(0.3, 1.0)};
    std::vector<core::PlanePoint> clumps(trees / 200);
    for (core::PlanePoint& clump : clumps)
        clump = anywhere();

    ChoiceProblem problem;
    problem.sites = sites;
    problem.contenders = trees;
    problem.spacing = core::Metres(30.0);
    std::int64_t costs = 0;
    for (std::size_t i = 0; i < trees; ++i) {
        Option option;
        option.tree = i;
        option.stem = anywhere();
        if (study.in_clumps) {
            option.stem = clumps[i % clumps.size()];
            option.stem.easting += random.normal() * 20.0;
            option.stem.northing += random.normal() * 20.0;
        }
        double felt = 0.0;
        for (const Line& line : lines)
            felt += line.felt_at(option.stem);
        const double own = random.uniform(0.0, 1.0);
        const double score = study.by_lines ? felt / (1.0 + felt) * (0.6 + 0.4 * own) : own;
        option.score = std::llround(1e6 * score);
        option.cost = std::llround(100.0 * random.uniform(50.0, 250.0));
        costs += option.cost;
        problem.options.push_back(option);
    }
    std::ranges::stable_sort(problem.options, std::ranges::greater{}, &Option::score);
    for (std::size_t i = 0; i < trees; ++i)
        problem.options[i].place = i;
    const auto limit = [&](std::size_t groups, std::size_t room) {
        siting::GroupLimit made{{}, std::vector(groups, room)};
        for (std::size_t i = 0; i < trees; ++i)
            made.group.push_back(static_cast<std::uint32_t>(problem.options[i].tree % groups));
        return made;
    };
    if (study.quotas) problem.limits = {limit(20, 2), limit(5, 13)};
    if (study.budget)
        problem.budget = costs / static_cast<std::int64_t>(trees) * static_cast<std::int64_t>(sites) * 2 / 3;
    return problem;
}

void run(const Study& study) {
    const ChoiceProblem problem = problem_of(study);
    const auto start = std::chrono::steady_clock::now();
    const siting::Solved solved = siting::solve(problem);
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    fmt::print(
        "{:<46} {:6.2f} s  {:2} sites  score {:9.6f}  bound {:9.6f}  gap {:.4f} %  {}{}  {} trees "
        "considered, {} "
        "nodes{}\n",
        study.name, took.count(), solved.trees.size(), 1e-6 * static_cast<double>(solved.score),
        1e-6 * static_cast<double>(solved.bound),
        100.0 * (static_cast<double>(solved.bound) / static_cast<double>(solved.score) - 1.0),
        solved.proven() ? "proven" : "not proven", solved.unique ? ", ties settled" : "", solved.considered,
        solved.nodes, solved.by_cbc ? ", CBC asked" : "");
}

}  // namespace

int main() {
    constexpr std::array studies{
        Study{"strewn, 16 km2, any score", 4000.0, false, false, false, false},
        Study{"strewn, 16 km2, good along lines", 4000.0, false, true, false, false},
        Study{"clumps, 16 km2, any score", 4000.0, true, false, false, false},
        Study{"clumps, 16 km2, good along lines", 4000.0, true, true, false, false},
        Study{"strewn, 2.25 km2, good along lines", 1500.0, false, true, false, false},
        Study{"clumps, 2.25 km2, good along lines", 1500.0, true, true, false, false},
        Study{"strewn, 16 km2, along lines, quotas", 4000.0, false, true, true, false},
        Study{"clumps, 16 km2, along lines, quotas", 4000.0, true, true, true, false},
        Study{"strewn, 16 km2, along lines, budget", 4000.0, false, true, false, true},
        Study{"strewn, 16 km2, along lines, quotas, budget", 4000.0, false, true, true, true},
        Study{"clumps, 1 km2, along lines, quotas, budget", 1000.0, true, true, true, true},
    };
    for (const Study& study : studies)
        run(study);
}
