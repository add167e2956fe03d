#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "roostward/core/finding.hpp"

namespace roostward::siting {

struct Candidate;
struct Settings;

inline constexpr std::size_t fitness_parts = 4;
/// How good a place is apart from the flights there, 0–1: the weighted mean of its parts' utilities. Where a
/// tree's value is not known the part may be anything, and `middle` takes half.
struct Fitness {
    double low = 0.0, middle = 0.0, high = 0.0;
    /// What approach, sun, dark and quiet, in that order, take away from 1 to leave `middle`.
    std::array<double, fitness_parts> taken{};
};

/// What the place leaves of a tree's evidence: 1 − share + share · fitness. It takes away, never adds.
struct Kept {
    double low = 1.0, middle = 1.0, high = 1.0;
};

/// Gives the trees that are not ruled out their fitness. A part takes part where it has a weight, the box
/// profile has a utility for it, and some tree has a value. Tells the parts that have a weight and a utility,
/// but no value of any tree.
[[nodiscard]] core::Findings measure_fitness(std::vector<Candidate>& candidates, const Settings& settings);

}  // namespace roostward::siting
