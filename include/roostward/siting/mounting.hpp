#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "roostward/core/units.hpp"
#include "roostward/siting/profile.hpp"

namespace roostward::siting {

enum class Hemisphere { north, south };

/// How boxes hang on any tree of a site.
struct Mounting {
    core::Metres height;          ///< ground at the trunk to the entrance
    FacingArc sunny;              ///< true bearings that the animals like, for the hemisphere
    core::Metres clear_approach;  ///< free way before the entrance that they need
    std::size_t boxes = 1;        ///< on one tree
};

/// Ground at the trunk to the entrance: the profile's usual height, but 4 m or more where the public can
/// reach.
[[nodiscard]] core::Metres entrance_height(const Profile& profile);
[[nodiscard]] Mounting mounting_of(const Profile& profile, Hemisphere hemisphere, std::size_t boxes);

inline constexpr std::size_t compass_points = 16;
[[nodiscard]] core::Degrees bearing_of_point(std::size_t point);  ///< 0: north, then clockwise

/// What a tree offers, true bearings. Empty where not known.
struct Outlook {
    std::optional<core::Degrees> way_in;  ///< toward the flight line
    std::array<std::optional<core::Metres>, compass_points> clear{};
};

/// Which way the first box faces: of the compass points within 45° of the way in (of all, where there is
/// none) that have the clear approach or may have it (of all, where none has), the one nearest to the sunny
/// arc; of equals the one nearest to the way in, or to the arc's middle; then the first clockwise from north.
/// 45°: common practice, no source.
[[nodiscard]] core::Degrees facing_of(const Mounting& mounting, const Outlook& outlook);

/// One facing a box: each further one 90° on, turning by way of east, away from the afternoon sun.
[[nodiscard]] std::vector<core::Degrees> facings_of(const Mounting& mounting, core::Degrees first);

/// How far a bearing lies outside an arc: 0 in it.
[[nodiscard]] core::Degrees turn_outside(const FacingArc& arc, core::Degrees bearing);

/// A bearing as one of 16 compass points: "SSE".
[[nodiscard]] std::string_view compass_point(core::Degrees bearing);

}  // namespace roostward::siting
