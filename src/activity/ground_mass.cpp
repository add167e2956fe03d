#include "roostward/activity/ground_mass.hpp"

#include <boost/math/special_functions/owens_t.hpp>
#include <cmath>
#include <numbers>

namespace roostward::activity {

namespace {

/// Beyond this distance, in units of h, an edge's two tails are under 1e-18.
constexpr double far_edge = 9.0;

/// In double precision throughout: Boost would otherwise work in long double, which takes twice as long and
/// differs by at most 1e-16.
double owens_t(double h, double a) {
    using InDouble = boost::math::policies::policy<boost::math::policies::promote_double<false>>;
    return boost::math::owens_t(h, a, InDouble{});
}

/// Mass of the triangle between the origin and an edge, in units where h = 1; positive where the edge turns
/// counter-clockwise about the origin.
double triangle_mass(double ax, double ay, double bx, double by) {
    const double length = std::hypot(bx - ax, by - ay);
    const double cross = ax * by - ay * bx;
    if (length == 0.0 || cross == 0.0) return 0.0;
    const double distance = std::fabs(cross) / length;
    const double turn = std::fabs(std::atan2(cross, ax * bx + ay * by)) / (2.0 * std::numbers::pi);
    const double along_a = (ax * (bx - ax) + ay * (by - ay)) / length;
    const double along_b = (bx * (bx - ax) + by * (by - ay)) / length;
    double tails = 0.0;
    if (distance < far_edge && along_a < far_edge && along_b > -far_edge)
        tails = owens_t(distance, along_b / distance) - owens_t(distance, along_a / distance);
    return std::copysign(turn - tails, cross);
}

/// Signed by the ring's direction.
double ring_mass(const geo::Line& ring, core::PlanePoint centre, double h) {
    double mass = 0.0;
    for (std::size_t i = 0; i + 1 < ring.size(); ++i)
        mass += triangle_mass(
            (ring[i].easting - centre.easting) / h, (ring[i].northing - centre.northing) / h,
            (ring[i + 1].easting - centre.easting) / h, (ring[i + 1].northing - centre.northing) / h);
    return mass;
}

/// The origin seen from a ray that starts at (ax, ay): `across` is positive where the ray turns
/// counter-clockwise about it.
struct Ray {
    double across, along;
    Ray(double ax, double ay, double angle)
        : across(ax * std::sin(angle) - ay * std::cos(angle)),
          along(ax * std::cos(angle) + ay * std::sin(angle)) {}

    /// Mass beyond the ray, within the angle that it takes from its start to infinity.
    [[nodiscard]] double tails() const {
        const double distance = std::fabs(across);
        if (distance >= far_edge) return 0.0;
        const double start = distance > 0.0 ? owens_t(distance, along / distance)
                                            : std::copysign(along == 0.0 ? 0.0 : 0.25, along);
        return 0.25 * std::erfc(distance / std::numbers::sqrt2) - start;
    }
};

}  // namespace

double sector_mass(const Sector& sector, core::PlanePoint centre, core::Metres s) {
    constexpr double straight = 1e-9;
    const double ax = (sector.apex.easting - centre.easting) / s.value();
    const double ay = (sector.apex.northing - centre.northing) / s.value();
    if (ax == 0.0 && ay == 0.0) return sector.half / std::numbers::pi;
    const Ray first(ax, ay, sector.middle - sector.half), last(ax, ay, sector.middle + sector.half);
    const double reflex = sector.half - 0.5 * std::numbers::pi;
    if (std::fabs(reflex) < straight) return 0.5 * std::erfc(-first.across / std::numbers::sqrt2);
    // Between the two lines, or, for a sector of more than half a turn, not between them on the other side.
    const bool inside =
        reflex < 0.0 ? first.across >= 0.0 && last.across <= 0.0 : !(first.across < 0.0 && last.across > 0.0);
    const double by_first = first.across >= 0.0 ? first.tails() : -first.tails();
    const double by_last = last.across <= 0.0 ? last.tails() : -last.tails();
    return (inside ? 1.0 : 0.0) - by_first - by_last;
}

double ground_mass(const std::vector<geo::Polygon>& ground, core::PlanePoint centre, core::Metres h) {
    double mass = 0.0;
    for (const auto& polygon : ground) {
        mass += std::fabs(ring_mass(polygon.outer, centre, h.value()));
        for (const auto& hole : polygon.holes)
            mass -= std::fabs(ring_mass(hole, centre, h.value()));
    }
    return mass;
}

}  // namespace roostward::activity
