#pragma once

#include <array>
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

/// One thing that the watches say of a tree.
struct EvidencePart {
    std::string_view name;
    double weight = 0.0;   ///< of all weights, which sum to 1
    double utility = 0.0;  ///< 0–1
};

/// Flight density (weight 5/6: λ/λ_ref) and evenings used (1/6: Laplace's rule of succession, so that one
/// used evening of one is not certainty).
[[nodiscard]] std::array<EvidencePart, 2> evidence_parts(const Subject& subject);

/// Their weighted mean, rounded to 1e-6.
[[nodiscard]] double evidence_score(const Subject& subject);

}  // namespace roostward::siting
