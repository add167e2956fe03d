#pragma once

#include <array>
#include <chrono>
#include <cstddef>
#include <span>
#include <vector>

#include "roostward/core/units.hpp"

/// Direct sun under a clear sky on the upright faces of boxes. Bearings are true, times are solar.
namespace roostward::sun {

/// The afternoons that can overheat a box.
struct HotAfternoons {
    std::chrono::month month;
    core::Hours from{14.0};  ///< solar time, inclusive, to solar midnight; common practice, no source
};
/// July in the north and on the equator, January in the south; common practice, no source.
[[nodiscard]] HotAfternoons hot_afternoons(core::Degrees latitude);

/// Direct sun on one face, mean hours a day.
struct FaceSun {
    core::Hours summer_half;  ///< April to September; in the south October to March
    core::Hours winter_half;  ///< the other half-year
    core::Hours hot_afternoon;
};

/// Mean hours a day in a part of the sky.
struct HoursInSky {
    float summer_half = 0.0F;
    float winter_half = 0.0F;
    float hot_afternoon = 0.0F;
};

/// How long the sun stands over a horizon, by bearing. Made by `SunPath`.
class SunOverHorizon {
 public:
    static constexpr std::size_t bins = 720;  ///< half degrees of bearing, from true north clockwise

    /// `hours` of the bins, one by one.
    explicit SunOverHorizon(std::span<const HoursInSky, bins> hours);

    /// The sun is on a face from 90° left of its bearing to 90° right of it. Any bearing; constant time.
    [[nodiscard]] FaceSun on_face(core::Degrees facing) const;

 private:
    std::array<HoursInSky, bins + 1> before_{};  ///< summed over all bins before this one

    [[nodiscard]] HoursInSky up_to(double bin) const;
};

/// Where in the sky the sun stands at a latitude, and how long. Made once for a site (some 50 ms); a tree
/// then costs microseconds. Longitude and height do not matter.
class SunPath {
 public:
    explicit SunPath(core::Degrees latitude);
    SunPath(core::Degrees latitude, const HotAfternoons& hot);

    /// `horizon` holds the elevation up to which (inclusive) the sun is hidden, for equal sectors of true
    /// bearing from north clockwise: sector i of n covers [i, i + 1) · 360°/n. Every n that divides 720 is
    /// followed exactly, any other to 0.25°. Elevations below 0° count as 0°. Refraction lifts the sun (1010
    /// hPa, 10 °C). Throws std::invalid_argument where `horizon` is empty.
    [[nodiscard]] SunOverHorizon over(std::span<const core::Degrees> horizon) const;

    /// The elevation that the sun never stands above in sector `sector` of `sectors`, to half a degree; 0
    /// where it never shines from.
    [[nodiscard]] core::Degrees highest_in(std::size_t sector, std::size_t sectors) const;

 private:
    /// Hours in a bin of bearing above an elevation: half degrees of elevation from 0° to 90°, bin by bin.
    std::vector<HoursInSky> above_;
};

}  // namespace roostward::sun
