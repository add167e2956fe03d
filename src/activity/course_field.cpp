#include "course_field.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "roostward/core/by_square.hpp"

namespace roostward::activity {

namespace {

constexpr double reach_along = 110.0, reach_aside = 40.0;  // m
constexpr double side = 20.0;                              // m, of a cell
/// Sightings of a cell that speak for all of it: more would hardly tell more.
constexpr std::size_t most_a_cell = 6;
/// What a bearing tells of the slope is worth a place this much farther on: errors of 17° and of 6 m.
constexpr double bearing_lever = 20.0;  // m
/// What is known beforehand, over the error of one place.
constexpr double known_aside = 6.0 / 30.0, known_slope = 6.0 / 0.5, known_bend = 6.0 * 80.0;

std::int64_t cell_of(double metres) {
    return static_cast<std::int64_t>(std::floor(metres / side));
}

std::uint64_t key_of(std::int64_t column, std::int64_t row) {
    return (static_cast<std::uint64_t>(row) << 32U) | (static_cast<std::uint64_t>(column) & 0xffffffffU);
}

std::uint64_t key_of(core::PlanePoint p) {
    return key_of(cell_of(p.easting), cell_of(p.northing));
}

double squared(double x) {
    return x * x;
}

/// The least squares for v = a + b u + c u²/2, of places (u, v) and of slopes b + c u.
class Parabola {
 public:
    void add(double weight, double u, double v, double slope) {
        constexpr double lever = bearing_lever * bearing_lever;
        const double wu = weight * u, wuu = wu * u;
        s00_ += weight;
        s01_ += wu;
        s11_ += wuu;
        s12_ += wuu * u;
        s22_ += wuu * u * u;
        r0_ += weight * v;
        r1_ += wu * v + lever * weight * slope;
        r2_ += 0.5 * wuu * v + lever * wu * slope;
    }

    [[nodiscard]] Course solved() const {
        constexpr double lever = bearing_lever * bearing_lever;
        const double s00 = s00_ + squared(known_aside), s02 = 0.5 * s11_;
        const double s11 = s11_ + lever * s00_ + squared(known_slope);
        const double s12 = 0.5 * s12_ + lever * s01_;
        const double s22 = 0.25 * s22_ + lever * s11_ + squared(known_bend);
        const double f1 = s01_ / s00, f2 = s02 / s00;
        const double t11 = s11 - f1 * s01_, t12 = s12 - f1 * s02, t22 = s22 - f2 * s02;
        const double q1 = r1_ - f1 * r0_, q2 = r2_ - f2 * r0_;
        const double bend = (q2 - t12 / t11 * q1) / (t22 - t12 / t11 * t12);
        const double slope = (q1 - t12 * bend) / t11;
        return {(r0_ - s01_ * slope - s02 * bend) / s00, slope};
    }

 private:
    double s00_ = 0.0, s01_ = 0.0, s11_ = 0.0, s12_ = 0.0, s22_ = 0.0;
    double r0_ = 0.0, r1_ = 0.0, r2_ = 0.0;
};

}  // namespace

CourseField::CourseField(std::span<const Sighting> sightings) {
    std::vector<core::PlanePoint> places;
    for (const Sighting& sighting : sightings)
        places.push_back(sighting.place);
    const core::Squares squares = core::by_square(places, core::Metres(side));
    for (std::size_t square = 0; square < squares.size(); ++square) {
        const auto members = squares.members(square);
        const std::size_t all = members.size(), kept = std::min(all, most_a_cell);
        cells_[key_of(places[members.front()])] = {static_cast<std::uint32_t>(sightings_.size()),
                                                   static_cast<std::uint32_t>(kept)};
        for (std::size_t i = 0; i < kept; ++i)
            sightings_.push_back(
                {sightings[members[i * all / kept]], static_cast<double>(all) / static_cast<double>(kept)});
    }
}

Course CourseField::at(core::PlanePoint place, Direction along) const {
    Parabola curve;
    const auto add = [&](const Weighted& one) {
        const double east = one.sighting.place.easting - place.easting;
        const double north = one.sighting.place.northing - place.northing;
        const double u = east * along.east + north * along.north, v = north * along.east - east * along.north;
        const double bell = 1.0 - squared(u / reach_along) - squared(v / reach_aside);
        if (bell <= 0.0) return;
        const Direction seen = one.sighting.direction;
        const double cosine = seen.east * along.east + seen.north * along.north;
        const double sine = seen.north * along.east - seen.east * along.north;
        if (cosine == 0.0) return;
        const double alike = squared(squared(squared(cosine)));
        curve.add(one.weight * squared(squared(bell)) * alike, u, v, sine / cosine);
    };
    // The ellipse's own bounding box.
    const double wide = std::sqrt(squared(reach_along * along.east) + squared(reach_aside * along.north));
    const double high = std::sqrt(squared(reach_along * along.north) + squared(reach_aside * along.east));
    for (auto row = cell_of(place.northing - high); row <= cell_of(place.northing + high); ++row)
        for (auto column = cell_of(place.easting - wide); column <= cell_of(place.easting + wide); ++column) {
            const auto found = cells_.find(key_of(column, row));
            if (found == cells_.end()) continue;
            const auto [first, count] = found->second;
            for (std::size_t i = first; i < first + count; ++i)
                add(sightings_[i]);
        }
    return curve.solved();
}

}  // namespace roostward::activity
