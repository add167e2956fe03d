#pragma once

#include <string>
#include <vector>

#include "files/layer_sample.hpp"

namespace roostward::io {

/// The input of the site file that a layer looks like; empty where nothing speaks for one.
struct RoleGuess {
    std::string role;
    double weight = 0.0;
    std::string confirm;  ///< empty where the file's name and its columns agree
    std::string why_not;  ///< where `role` is empty
};
[[nodiscard]] RoleGuess role_of(const LayerSample& sample);

/// The same for a raster, by its name, else by its heights.
[[nodiscard]] RoleGuess role_of_raster(const InputSource& source);
[[nodiscard]] bool is_raster(const InputSource& source);

}  // namespace roostward::io
