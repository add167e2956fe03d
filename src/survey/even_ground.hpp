#pragma once

#include <vector>

#include "roostward/survey/survey.hpp"

namespace roostward::survey {

/// Without watches: the allowed area, else the hull of what was seen widened by 50 m.
[[nodiscard]] std::vector<geo::Polygon> even_ground(const Noted& noted,
                                                    const std::vector<geo::Polygon>& allowed_area);

}  // namespace roostward::survey
