#pragma once

#include <tuple>

#include "layers/layers.hpp"
#include "roostward/survey/record_contents.hpp"
#include "roostward/trees/record_contents.hpp"

namespace roostward::io {

[[nodiscard]] inline auto content(const GroundShape& g) {
    return std::tie(g.shape);
}

[[nodiscard]] inline auto content(const NamedGround& g) {
    return std::tie(g.name, g.shape);
}

}  // namespace roostward::io
