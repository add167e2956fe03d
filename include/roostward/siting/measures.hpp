#pragma once

#include <optional>
#include <string_view>

#include "roostward/activity/flight_density.hpp"
#include "roostward/trees/tree.hpp"

namespace roostward::siting {

/// What a measure may look at.
struct Subject {
    const trees::Tree& tree;
    activity::PointActivity activity;
    double reference_density = 0.0;  ///< λ_ref: the largest flight density among the trees that can be chosen
};

/// One thing that makes a tree better or worse, as a utility in [0, 1].
struct Measure {
    std::string_view name;
    double weight = 1.0;
    /// Empty where the inputs do not tell.
    std::optional<double> (*utility)(const Subject&);
};

/// What the watches say, flight density (weight 5) and evenings used (weight 1): the weighted mean of those
/// utilities that are known, rounded to 1e-6.
[[nodiscard]] double evidence_score(const Subject& subject);

}  // namespace roostward::siting
