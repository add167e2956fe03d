#pragma once

#include <string>
#include <vector>

#include "roostward/core/grid.hpp"

namespace roostward::canopy {

/// A raster drawn in letters, 1 m cells, north-west corner at (0, rows): '.' is bare ground, '#' a canopy of
/// 9 m, '?' unknown, a figure its own height in metres.
inline core::Raster drawn(const std::vector<std::string>& rows, core::Metres cell = core::Metres(1.0)) {
    core::Raster raster;
    raster.grid = {
        {0.0, static_cast<double>(rows.size()) * cell.value()}, cell, rows.size(), rows.front().size()};
    for (const std::string& row : rows) {
        for (const char letter : row) {
            raster.known.push_back(letter == '?' ? 0 : 1);
            raster.values.push_back(letter == '#'                    ? 9.0F
                                    : letter >= '0' && letter <= '9' ? static_cast<float>(letter - '0')
                                                                     : 0.0F);
        }
    }
    return raster;
}

}  // namespace roostward::canopy
