#pragma once

#include <algorithm>
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

inline constexpr double flight_weight = 5.0 / 6.0, evenings_weight = 1.0 / 6.0;

/// λ/λ_ref
[[nodiscard]] inline double flight_utility(double flight_density, double reference_density) {
    return reference_density > 0.0 ? std::min(1.0, flight_density / reference_density) : 0.0;
}

/// Laplace's rule of succession, so that one used evening of one is not certainty.
[[nodiscard]] inline double evenings_utility(double used, double watched) {
    return (used + 1.0) / (watched + 2.0);
}

/// Flight density and evenings used.
[[nodiscard]] std::array<EvidencePart, 2> evidence_parts(const Subject& subject);

/// Their weighted mean, rounded to 1e-6.
[[nodiscard]] double evidence_score(const Subject& subject);

}  // namespace roostward::siting
