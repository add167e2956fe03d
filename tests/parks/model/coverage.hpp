#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "parks/model/park.hpp"
#include "roostward/activity/bandwidth.hpp"

namespace roostward::parks {

/// One figure at one tree, held against the truth.
struct Held {
    double stated = 0.0, truth = 0.0;
    double low = 0.0, high = 0.0;
};

/// Figures of some trees of one park.
struct HeldFigures {
    std::vector<Held> flights;  ///< flights an hour within 20 m
    std::vector<Held> metres;   ///< flight density against metres flown within 10 m, per hectare and hour
    std::size_t trees = 0;      ///< with and without a range
};

struct Coverage {
    HeldFigures watched, chosen;
};
[[nodiscard]] Coverage coverage_of(const Park& park, const activity::Bandwidth& bandwidth);

/// What many parks say of one kind of figure; shares of ranges.
struct Calibration {
    std::size_t ranges = 0;
    double ratio = 0.0;        ///< sum of stated over sum of true figures
    double ratio_error = 0.0;  ///< half of its 95 % interval, by parks
    double held = 0.0;         ///< truth within the range
    double held_error = 0.0;   ///< half of its 95 % interval, by parks
    double below = 0.0;        ///< truth below the range
    double above = 0.0;
    double median_width = 0.0;
    double interval_score = 0.0;  ///< mean, α = 0.2 (Gneiting & Raftery 2007, JASA 102): lower is better
};
/// One element a park.
[[nodiscard]] Calibration calibration_of(std::span<const std::vector<Held>> parks);

}  // namespace roostward::parks
