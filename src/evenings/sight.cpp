#include "roostward/evenings/sight.hpp"

#include <algorithm>
#include <cmath>

#include "roostward/canopy/shade.hpp"
#include "roostward/evenings/teams.hpp"

namespace roostward::evenings {

namespace {

constexpr core::Metres eye_height{1.6}, flight_height{5.0};
constexpr double lost_per_metre = 0.1;

struct Seen {
    double elevation, farthest;
};
constexpr Seen by_eye[] = {{-3.0, 40.0}, {-9.0, 15.0}, {-12.0, 5.0}};

}  // namespace

core::Metres sight_by_eye(core::Degrees sun_elevation) {
    const double at = sun_elevation.value();
    if (at >= by_eye[0].elevation) return core::Metres(by_eye[0].farthest);
    for (std::size_t i = 1; i < std::size(by_eye); ++i) {
        const auto [low, dark] = by_eye[i];
        const auto [high, light] = by_eye[i - 1];
        if (at >= low) return core::Metres(dark + (light - dark) * (at - low) / (high - low));
    }
    return core::Metres(std::rbegin(by_eye)->farthest);
}

core::Metres farthest_seen(const Team& team, core::Degrees sun_elevation) {
    const core::Metres told = team.farthest_seen.value_or(usual_sight(team.seen_by));
    if (team.seen_by != "eye") return told;
    return told * (sight_by_eye(sun_elevation) / core::Metres(by_eye[0].farthest));
}

double share_through(const std::optional<core::Raster>& canopy_height,
                     const std::optional<core::Raster>& ground_height, core::PlanePoint eye,
                     core::PlanePoint stem, core::Metres crown_radius) {
    if (!canopy_height) return 1.0;
    const core::Metres crowns =
        canopy::crowns_between(*canopy_height, {eye, eye_height}, {stem, flight_height}, crown_radius,
                               ground_height ? &*ground_height : nullptr);
    return std::exp(-lost_per_metre * crowns.value());
}

}  // namespace roostward::evenings
