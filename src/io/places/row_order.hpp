#pragma once

#include "places/planning_plane.hpp"

namespace roostward::io {

/// Puts the records of every layer in the order of their content: from here on nothing hangs on how rows and
/// files were ordered. To be called when all that has coordinates lies in the planning plane. Trees without
/// an identifier come first, by their place, and get one from their row; a tree of another identifier keeps
/// it.
void put_rows_in_order(UnplacedInputs& inputs);

}  // namespace roostward::io
