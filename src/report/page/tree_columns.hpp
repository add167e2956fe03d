#pragma once

#include <string>

#include "page_parts.hpp"

namespace roostward::report {

/// The shown trees as JSON, a list for each property, so that a city's trees stay small. What is known only
/// of trees that may hold a box comes apart, with their places in the lists under `of`. Texts that many trees
/// share stand in lists of their own, and trees tell their places there.
void append_tree_columns(std::string& json, const Page& page, core::PlanePoint origin);

}  // namespace roostward::report
