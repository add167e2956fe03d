#pragma once

#include <optional>
#include <string_view>

#include "roostward/core/point.hpp"
#include "roostward/geo/crs.hpp"

namespace roostward::geo {

/// The square of ground that a grid reference names.
struct GridSquare {
    Crs crs;
    core::PlanePoint middle;  ///< in `crs`; longitude and latitude, or metres
    core::Metres side;
};

/// A reference of the military grid with its zone, as "30UWC1234567890"; case and spaces do not matter.
/// Squares of 10 km and less. Empty for any other text.
[[nodiscard]] std::optional<GridSquare> mgrs_square(std::string_view text);

/// A reference of the British national grid, as "SP 063 779", within 49 to 61° north and 9° west to 2° east.
/// Squares of 10 km and less. Empty for any other text.
[[nodiscard]] std::optional<GridSquare> british_square(std::string_view text);

/// Whether a place lies where the British national grid is used.
[[nodiscard]] bool in_british_grid(core::GeographicPoint place);

}  // namespace roostward::geo
