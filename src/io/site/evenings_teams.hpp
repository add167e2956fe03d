#pragma once

#include <array>
#include <string_view>
#include <vector>

#include "roostward/evenings/settings.hpp"
#include "site/toml_entry.hpp"

namespace roostward::io {

inline constexpr std::array<std::string_view, 4> ways_of_seeing{"eye", "ear", "night-vision", "thermal"};
inline constexpr NumberRange farthest_seen_m{2.0, 1000.0};

/// `[[evenings.team]]`. Throws Error{site_file}, also where two teams have one name, or one leaves before it
/// comes.
[[nodiscard]] std::vector<evenings::Team> read_teams(const TomlEntry& teams);

}  // namespace roostward::io
