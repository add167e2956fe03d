#pragma once

#include <optional>

#include "roostward/core/grid.hpp"
#include "roostward/core/point.hpp"
#include "roostward/core/units.hpp"
#include "roostward/evenings/settings.hpp"

namespace roostward::evenings {

/// How far an eye sees a pass with the sun's centre at an elevation (true, without refraction): 40 m down to
/// −3°, then less evenly, to 15 m at −9° and 5 m at −12° and below. Common practice, no source.
[[nodiscard]] core::Metres sight_by_eye(core::Degrees sun_elevation);

/// How far a team sees a pass: eyes less as it darkens, everything else as far as is told.
[[nodiscard]] core::Metres farthest_seen(const Team& team, core::Degrees sun_elevation);

/// The share of passes at `seen_from` that crowns and ground between leave to an eye at `eye`: e^(−0.1) for
/// each metre of crown on the straight line from the eye, 1.6 m up, to where animals fly, 5 m up; the last
/// `crown_radius` metres are the tree's own and hide nothing. 1 where there is no canopy model; a model
/// hides clear stems: check by day. Common practice, no source.
[[nodiscard]] double share_through(const std::optional<core::Raster>& canopy_height,
                                   const std::optional<core::Raster>& ground_height, core::PlanePoint eye,
                                   core::PlanePoint stem, core::Metres crown_radius);

}  // namespace roostward::evenings
