#pragma once

#include <string>
#include <vector>

#include "roostward/survey/animal_words.hpp"

namespace roostward::io {

/// data/animals.toml as it was when the program was built.
extern const char* const animal_groups_text;

/// All groups of a TOML text. `file` names it in errors. Throws Error{site_file}, also for a word of two
/// groups.
[[nodiscard]] std::vector<survey::AnimalGroup> parse_animal_groups(const std::string& toml,
                                                                   const std::string& file);

}  // namespace roostward::io
