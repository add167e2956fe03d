#pragma once

#include <vector>

#include "roostward/geo/layer.hpp"
#include "roostward/plan/plan.hpp"

// Layers refer to the plan, which must outlive them.
namespace roostward::report {

/// A point for every tree that can be chosen, best first.
[[nodiscard]] geo::Layer ranked_sites(const plan::Plan& plan);

/// A point for every other tree, with its state and all reasons.
[[nodiscard]] geo::Layer other_trees(const plan::Plan& plan);

/// A line for every route found, most used first.
[[nodiscard]] geo::Layer flight_lines(const plan::Plan& plan);

/// Everything a desktop GIS should show: the three above, flights, watches, allowed area and features to keep
/// away from.
[[nodiscard]] std::vector<geo::Layer> all_layers(const plan::Plan& plan);

}  // namespace roostward::report
