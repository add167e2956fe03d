#pragma once

#include <optional>
#include <string>

#include "roostward/core/units.hpp"

namespace roostward::siting {

enum class Wall { thin, insulated };
enum class Colour { pale, medium, dark };

/// What will be hung. Empty means not told.
struct Box {
    std::string made_of;  ///< "reclaimed softwood boards"
    Wall wall = Wall::thin;
    std::optional<Colour> colour;
    std::optional<core::Millimetres> slot;  ///< width of the entrance

    [[nodiscard]] bool plastic() const;  ///< by a word of `made_of`
    /// Whether afternoon sun can overheat it: thin walls, a dark colour or plastic.
    [[nodiscard]] bool heats_up() const;
};

/// Where the boxes hang, as far as heat goes.
struct Climate {
    std::optional<core::Celsius> hottest_month;  ///< mean daily maximum; empty: not told, taken as cool
    core::Celsius hot_from{28.0};                ///< inclusive; common practice, no source
    core::Hours most_hot_sun{2.0};  ///< on a box that heats up, after 14:00 solar time; inclusive

    [[nodiscard]] bool hot() const { return hottest_month && *hottest_month >= hot_from; }
};

}  // namespace roostward::siting
