#pragma once

#include <array>
#include <complex>
#include <cstdint>
#include <span>
#include <unordered_map>
#include <vector>

#include "roostward/core/point.hpp"

namespace roostward::activity {

/// A unit vector.
struct Direction {
    double east = 1.0, north = 0.0;
};

struct Sighting {
    core::PlanePoint place;
    Direction direction;
};

/// Which way is flown about a place: axial means of sightings, those weighted most that are near and that run
/// alike.
class DirectionField {
 public:
    explicit DirectionField(std::span<const Sighting> sightings);

    /// The axial mean at `place` of the sightings, each weighted by cos⁸ of its angle to `like` and by a bell
    /// of standard deviation 20 m about it (two cubic B-splines on cells of `cell`), in the sense of `like`;
    /// `like` itself where nothing was seen.
    [[nodiscard]] Direction at(core::PlanePoint place, Direction like) const;

 private:
    /// Σ e^(2ikφ) for k from 0 to 5, of sightings with the angle φ: all that weights of cos⁸ ask for.
    using Moments = std::array<std::complex<double>, 6>;
    struct Spread;

    [[nodiscard]] Moments moments_at(core::PlanePoint place) const;

    core::PlanePoint origin_;
    std::unordered_map<std::uint64_t, std::uint32_t> cells_;  ///< which moments a cell has; only looked up
    std::vector<Moments> moments_;
};

}  // namespace roostward::activity
