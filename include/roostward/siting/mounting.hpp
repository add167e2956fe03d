#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "roostward/core/units.hpp"
#include "roostward/siting/profile.hpp"
#include "roostward/siting/settings.hpp"

namespace roostward::siting {

enum class Hemisphere { north, south };

/// How boxes hang on any tree of a site.
struct Mounting {
    core::Metres height;          ///< ground at the trunk to the entrance
    FacingArc sunny;              ///< true bearings that the animals like, for the hemisphere and the climate
    core::Metres clear_approach;  ///< free way before the entrance that they need
    std::size_t boxes = 1;        ///< on one tree
    /// Most sun after 14:00 solar time in the hottest month that a face may have; empty: any.
    std::optional<core::Hours> most_hot_sun;
};

/// In a hot climate boxes face the morning sun, whatever the profile says of cool ones.
[[nodiscard]] Mounting mounting_of(const Settings& settings, Hemisphere hemisphere);

inline constexpr std::size_t compass_points = 16;
[[nodiscard]] core::Degrees bearing_of_point(std::size_t point);  ///< 0: north, then clockwise

/// What a tree offers, true bearings. Empty where not known.
struct Outlook {
    std::optional<core::Degrees> way_in;  ///< toward the flight line
    std::array<std::optional<core::Metres>, compass_points> clear{};
    std::array<std::optional<core::Hours>, compass_points> hot_sun{};
    std::optional<core::Degrees> road{};  ///< toward the nearest road, where one is near
};

/// Which way the boxes of a tree face, true bearings.
struct Facings {
    std::vector<core::Degrees> boxes;  ///< one a box; never empty
    /// What the first box would face but for the road and the heat.
    core::Degrees wished;
    bool off_the_road = false;  ///< it was turned from `wished` because that looks at a road
    bool off_the_heat = false;  ///< … because that is too hot of an afternoon
};

/// The first box faces, of the 16 compass points, one that looks at no road and is not too hot, within 45° of
/// the way in (where there is one), with the clear approach or none known; these in that order of weight. Of
/// those that are left it is the one nearest to the sunny arc; of equals the one nearest to the way in, or to
/// the arc's middle; then the first clockwise from north. Each further box keeps 90° and more from those
/// before it as long as there is room; for it too no road, no heat and a clear approach come first, then the
/// eastern half, away from the afternoon sun, then the nearest to 90°. A face looks at the road that lies
/// within 45° of it. 45° and 90°: common practice, no source.
[[nodiscard]] Facings facings_of(const Mounting& mounting, const Outlook& outlook);

/// How far a bearing lies outside an arc: 0 in it.
[[nodiscard]] core::Degrees turn_outside(const FacingArc& arc, core::Degrees bearing);

/// A bearing as one of 16 compass points: "SSE".
[[nodiscard]] std::string_view compass_point(core::Degrees bearing);

}  // namespace roostward::siting
