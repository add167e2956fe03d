#pragma once

#include <string>

namespace roostward::report {

/// One page of plain HTML for a sheet of A4: how to stand, what to write, weather, teams of two, cautions.
[[nodiscard]] std::string before_you_start();

}  // namespace roostward::report
