#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "roostward/core/finding.hpp"

namespace roostward::siting {

struct Candidate;
struct Settings;

inline constexpr std::array<std::string_view, 4> fitness_part_names{"approach", "sun", "dark", "quiet"};
inline constexpr std::size_t fitness_parts = fitness_part_names.size();

/// One part of a place's fitness.
struct FitnessPart {
    double share = 0.0;             ///< its weight over that of all that take part; 0 where it takes none
    std::optional<double> utility;  ///< 0–1; empty where it takes no part or is not known

    /// What it takes away from a fitness of 1; where the utility is not known that of `otherwise`.
    [[nodiscard]] double takes(double otherwise = 0.5) const {
        return share * (1.0 - utility.value_or(otherwise));
    }
};

/// How good a place is apart from the flights there, 0–1: the weighted mean of its parts' utilities. Where a
/// tree's value is not known the part may be anything, and `middle` takes half.
struct Fitness {
    double low = 0.0, middle = 0.0, high = 0.0;
    std::array<FitnessPart, fitness_parts> parts{};  ///< in the order of `fitness_part_names`
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
