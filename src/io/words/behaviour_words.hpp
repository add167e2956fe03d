#pragma once

#include "roostward/io/row_reader.hpp"
#include "roostward/survey/records.hpp"

namespace roostward::io {

/// What the animals did; unknown where it is not told, or not understood, with a doubt.
[[nodiscard]] survey::Behaviour behaviour(const RowReader& row, const Field& field);

}  // namespace roostward::io
