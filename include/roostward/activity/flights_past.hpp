#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "roostward/activity/effort.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/core/point.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::activity {

/// A flight comes past a place if its path comes within this (inclusive).
inline constexpr core::Metres past_reach{20.0};
/// How near metres flown are counted.
inline constexpr core::Metres flown_reach{10.0};

/// What came past some points: a row a point, a column an evening.
struct PastTable {
    std::size_t evenings = 0;
    std::vector<double> flights;      ///< that came past, each once, weighing what it stands for
    std::vector<double> metres;       ///< flown within `flown_reach`
    std::vector<double> hours;        ///< of watching from which a flight past here would have been told
    std::vector<std::uint32_t> seen;  ///< flights noted that came past: one value a point, all evenings
    double one_flight = 1.0;          ///< what one noted flight typically adds to `flights`
    double one_flown = 1.0;           ///< what one noted flight typically adds to `metres`, m

    [[nodiscard]] std::size_t at(std::size_t point, std::size_t evening) const {
        return point * evenings + evening;
    }
};

/// Counts the flights past each point, and the watching from which they would have been told.
///
/// A pass is told once, somewhere along its way, in proportion to how well it was seen there, and lies on a
/// piece of its course about that place. A flight past a point is told from a watch if it was noticed, and if
/// the place told lies so near the point along the course that its piece comes past: that is the mean of the
/// watch's half-normal along the course, over the piece and the reach, and a flight weighs its metres over
/// the same length. So both sides hold the same stretch of course, which the density at a point, smeared
/// along pieces, does not. Where no flight tells the course, the mean over four axes stands for it.
class FlightsPast {
 public:
    /// Flights as bent; smooths nothing.
    explicit FlightsPast(const survey::Survey& flown);

    [[nodiscard]] PastTable at(std::span<const core::PlanePoint> points, core::Threads threads) const;

 private:
    struct Segment {
        core::PlanePoint from;
        double east = 0.0, north = 0.0;  ///< unit vector along it
        double length = 0.0;             ///< m; 0: a single place
        std::uint32_t flight = 0;
    };
    struct Weight {
        double metres = 0.0;     ///< flown and told, of all its animals
        double length = 0.0;     ///< of its path, m
        double per_metre = 0.0;  ///< metres flown for each metre of path; in all, for a single place
        std::uint32_t evening = 0;
    };
    struct Passing;

    [[nodiscard]] std::vector<Segment> segments_about(core::PlanePoint middle) const;
    [[nodiscard]] Passing count_past(core::PlanePoint p, std::span<const Segment> about, PastTable& table,
                                     std::size_t row) const;
    void add_hours(core::PlanePoint p, const Passing& passing, PastTable& table, std::size_t row) const;

    Effort effort_;
    std::vector<Weight> flights_;
    std::vector<Segment> segments_;     ///< by square, then in the order of flights
    std::vector<std::int64_t> square_;  ///< of each segment: ascending
    double one_flight_ = 1.0, one_flown_ = 1.0;
};

}  // namespace roostward::activity
