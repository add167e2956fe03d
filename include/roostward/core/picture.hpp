#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "roostward/core/grid.hpp"

namespace roostward::core {

/// An image file over ground: a cell of the grid is a pixel.
struct Picture {
    Grid grid;
    std::string media_type;  ///< "image/webp"
    std::vector<std::uint8_t> bytes;
};

}  // namespace roostward::core
