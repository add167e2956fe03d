#include "parks/model/coverage.hpp"

#include <numbers>
#include <vector>

#include "parks/model/choice.hpp"
#include "parks/model/share.hpp"
#include "parks/model/truth.hpp"
#include "roostward/activity/evening_draws.hpp"
#include "roostward/activity/piece_buckets.hpp"

namespace roostward::parks {
namespace {

constexpr std::size_t unseen_evenings = 200;
constexpr double near_tree = 10.0;

/// Metres flown per m² and hour at each stem, smoothed by K_h.
std::vector<double> smoothed_truth(const Park& park, std::span<const core::PlanePoint> stems, core::Metres h,
                                   std::uint64_t seed) {
    core::RandomStream random(seed, "coverage");
    survey::Survey truth;
    truth.evenings.resize(1);
    for (std::size_t e = 0; e < unseen_evenings; ++e) {
        for (geo::Line& path : draw_evening(park.routes, 1.0, random)) {
            survey::Flight flight;
            flight.length = geo::length_of(path);
            flight.path = std::move(path);
            truth.flights.push_back(std::move(flight));
        }
    }
    const activity::PieceBuckets pieces(activity::pieces_of(truth, h, 4.0 * h));
    std::vector<double> rates(stems.size(), 0.0);
    for (std::size_t i = 0; i < stems.size(); ++i) {
        pieces.add_at(stems[i], &rates[i]);
        rates[i] /= static_cast<double>(unseen_evenings);
    }
    return rates;
}

bool holds(const activity::Range& range, double value) {
    return value >= range.low && value <= range.high;
}

}  // namespace

Coverage coverage_of(const Park& park, const activity::Bandwidth& bandwidth, std::uint64_t seed) {
    const auto candidates = assess(park, bandwidth, park_choice(), Ranges::yes);
    std::vector<std::size_t> trees;
    std::vector<core::PlanePoint> stems;
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        if (!candidates[i].flight_range) continue;
        trees.push_back(i);
        stems.push_back(park.trees[i].stem);
    }
    const std::vector<double> smoothed = smoothed_truth(park, stems, bandwidth.h, seed);
    Coverage coverage;
    for (std::size_t k = 0; k < trees.size(); ++k) {
        const activity::Range& range = *candidates[trees[k]].flight_range;
        const double raw = park.truth[trees[k]] / (std::numbers::pi * near_tree * near_tree);
        ++coverage.ranges;
        coverage.hold_smoothed += holds(range, smoothed[k]) ? 1 : 0;
        coverage.hold_raw += holds(range, raw) ? 1 : 0;
    }
    return coverage;
}

}  // namespace roostward::parks
