#pragma once

#include <span>
#include <string>
#include <string_view>

#include "roostward/io/site_file.hpp"
#include "roostward/siting/inputs.hpp"

namespace roostward::io {

/// What a plan is called on paper: the first 8 hexadecimal digits of the SHA-256 over the program's version,
/// the seed, every setting, how the inputs are read, and the SHA-256 of each input, sorted by layer and then
/// hash. Neither paths nor time go into it: the same inputs have the same number wherever they lie.
[[nodiscard]] std::string plan_number(const SiteFile& site, std::span<const siting::InputFile> files,
                                      std::string_view version);

}  // namespace roostward::io
