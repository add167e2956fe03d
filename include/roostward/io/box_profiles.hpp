#pragma once

#include <string>
#include <vector>

#include "roostward/siting/profile.hpp"

namespace roostward::io {

/// data/box-profiles.toml as it was when the program was built.
extern const char* const box_profiles_text;

/// All profiles of a TOML text. `file` names it in errors. Throws Error{site_file}.
[[nodiscard]] std::vector<siting::Profile> parse_box_profiles(const std::string& toml,
                                                              const std::string& file);

}  // namespace roostward::io
