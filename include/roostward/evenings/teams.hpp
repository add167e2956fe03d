#pragma once

#include <string_view>
#include <vector>

#include "roostward/evenings/settings.hpp"

namespace roostward::evenings {

/// How far a pass is seen with it in good light, where nobody says: eye and ear 40 m, night-vision 60 m,
/// thermal 80 m. Common practice, no source.
[[nodiscard]] core::Metres usual_sight(std::string_view seen_by);

/// So many teams with everything told: those that are named first, the others as the settings say, called by
/// their number.
[[nodiscard]] std::vector<Team> teams_of(const Settings& settings, std::size_t teams);

}  // namespace roostward::evenings
