#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "roostward/plan/plan.hpp"

namespace roostward::report {

/// What must be true before anyone climbs a chosen tree.
struct Matter {
    std::string title;  ///< "Owner"
    std::string text;
    std::string who;          ///< who settles it; empty where nothing is open on paper
    bool everywhere = false;  ///< open for every tree alike

    [[nodiscard]] bool open() const { return !who.empty(); }
};

inline constexpr std::size_t matters_of_every_tree = 6;

/// Owner, inspection, power lines, nests, holes and season, in this order; then whatever else nobody has
/// checked or settled.
[[nodiscard]] std::vector<Matter> matters_of(const plan::Plan& plan, std::size_t tree);

}  // namespace roostward::report
