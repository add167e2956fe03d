#include "parks/model/coverage.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "parks/model/choice.hpp"

namespace roostward::parks {
namespace {

constexpr double disc = std::numbers::pi * 10.0 * 10.0;  // m² within 10 m
constexpr double per_hectare = 1e4;

void add(HeldFigures& figures, const Park& park, std::size_t tree, const siting::Candidate& candidate) {
    ++figures.trees;
    if (const auto& range = candidate.flights.range)
        figures.flights.push_back(
            {candidate.flights.per_hour, park.true_flights[tree], range->low, range->high});
    if (const auto& range = candidate.flight_range)
        figures.metres.push_back({per_hectare * candidate.activity.flight_density,
                                  per_hectare * park.truth[tree] / disc, per_hectare * range->low,
                                  per_hectare * range->high});
}

/// Sum of one thing over sum of another, and half of its 95 % interval: parks are the units (linearised).
struct Ratio {
    double value = 0.0, error = 0.0;
};
Ratio ratio_of(std::span<const double> above, std::span<const double> below) {
    double tops = 0.0, bottoms = 0.0, squares = 0.0;
    for (std::size_t i = 0; i < above.size(); ++i) {
        tops += above[i];
        bottoms += below[i];
    }
    const double ratio = tops / bottoms, n = static_cast<double>(above.size());
    for (std::size_t i = 0; i < above.size(); ++i)
        squares += (above[i] - ratio * below[i]) * (above[i] - ratio * below[i]);
    return {ratio, 1.96 * std::sqrt(n / (n - 1.0) * squares) / bottoms};
}

double interval_score(const Held& one) {
    constexpr double alpha = 0.2;
    return one.high - one.low + 2.0 / alpha * std::max(0.0, one.low - one.truth) +
           2.0 / alpha * std::max(0.0, one.truth - one.high);
}

}  // namespace

Coverage coverage_of(const Park& park, const activity::Bandwidth& bandwidth) {
    const auto candidates = assess(park, bandwidth, park_choice(), Ranges::yes);
    Coverage coverage;
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        if (!candidates[i].activity.watched) continue;
        add(coverage.watched, park, i, candidates[i]);
        if (candidates[i].site) add(coverage.chosen, park, i, candidates[i]);
    }
    return coverage;
}

Calibration calibration_of(std::span<const std::vector<Held>> parks) {
    std::vector<double> stated, truth, held, ranges, widths;
    Calibration all;
    for (const auto& park : parks) {
        double park_stated = 0.0, park_truth = 0.0, park_held = 0.0;
        for (const Held& one : park) {
            park_stated += one.stated;
            park_truth += one.truth;
            const bool below = one.truth<one.low, above = one.truth> one.high;
            park_held += below || above ? 0.0 : 1.0;
            all.below += below ? 1.0 : 0.0;
            all.above += above ? 1.0 : 0.0;
            all.interval_score += interval_score(one);
            widths.push_back(one.high - one.low);
        }
        stated.push_back(park_stated);
        truth.push_back(park_truth);
        held.push_back(park_held);
        ranges.push_back(static_cast<double>(park.size()));
        all.ranges += park.size();
    }
    const double n = static_cast<double>(all.ranges);
    const Ratio ratio = ratio_of(stated, truth), holds = ratio_of(held, ranges);
    all.ratio = ratio.value;
    all.ratio_error = ratio.error;
    all.held = holds.value;
    all.held_error = holds.error;
    all.below /= n;
    all.above /= n;
    all.interval_score /= n;
    std::ranges::nth_element(widths, widths.begin() + static_cast<std::ptrdiff_t>(widths.size() / 2));
    all.median_width = widths[widths.size() / 2];
    return all;
}

}  // namespace roostward::parks
