#pragma once

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

/// The middle of what is flown about a place, seen in a direction.
struct Course {
    double aside = 0.0;  ///< metres from the place to it, to the left
    double slope = 0.0;  ///< metres that it goes to the left for each metre ahead
};

/// Which way is flown: the course of sightings that lie near and run alike, by a local curve.
class CourseField {
 public:
    explicit CourseField(std::span<const Sighting> sightings);

    /// The parabola through the sightings about `place`, by weighted least squares on their places and
    /// bearings both. A sighting's weight is a bell, (1 − r²)⁴ with r = 1 at 110 m along and 40 m aside,
    /// times cos⁸ of its angle to `along`, so that routes that cross do not mix. Beforehand a course leads
    /// through `place` (to 30 m), straight on (to a slope of 1 in 2) and bends little (1 in 80 m); few
    /// sightings say little against that.
    [[nodiscard]] Course at(core::PlanePoint place, Direction along) const;

 private:
    struct Weighted {
        Sighting sighting;
        double weight = 1.0;
    };
    struct Cell {
        std::uint32_t first = 0, count = 0;
    };

    std::vector<Weighted> sightings_;                ///< cell by cell, in each as they came
    std::unordered_map<std::uint64_t, Cell> cells_;  ///< only looked up
};

}  // namespace roostward::activity
