#pragma once

#include <string_view>
#include <vector>

#include "roostward/core/units.hpp"
#include "roostward/siting/profile.hpp"

namespace roostward::siting {

enum class Hemisphere { north, south };

/// How the boxes of one site hang. Facings are true bearings.
struct Mounting {
    core::Metres height;                 ///< ground at the trunk to the entrance
    std::vector<core::Degrees> facings;  ///< one a box
};

/// Ground at the trunk to the entrance: the profile's usual height, but 4 m or more where the public can
/// reach.
[[nodiscard]] core::Metres entrance_height(const Profile& profile);

/// Boxes at the entrance height; the first box to the middle of the
/// profile's arc for the hemisphere, each further one 90° on, turning by way of east, away from the afternoon
/// sun.
[[nodiscard]] Mounting mounting_of(const Profile& profile, Hemisphere hemisphere, std::size_t boxes);

/// A bearing as one of 16 compass points: "SSE".
[[nodiscard]] std::string_view compass_point(core::Degrees bearing);

}  // namespace roostward::siting
