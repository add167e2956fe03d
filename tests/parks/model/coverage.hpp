#pragma once

#include <cstddef>

#include "parks/model/park.hpp"
#include "roostward/activity/bandwidth.hpp"

namespace roostward::parks {

/// How often the 10–90 % ranges of a park's suitable trees hold what is true.
struct Coverage {
    std::size_t ranges = 0;
    std::size_t hold_smoothed = 0;  ///< the true rate smoothed by K_h
    std::size_t hold_raw = 0;       ///< the true rate within 10 m
};

/// The truth smoothed by K_h is the mean of 200 evenings on which nobody watched, the bandwidth's h.
[[nodiscard]] Coverage coverage_of(const Park& park, const activity::Bandwidth& bandwidth,
                                   std::uint64_t seed);

}  // namespace roostward::parks
