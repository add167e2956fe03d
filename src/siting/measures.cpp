#include "roostward/siting/measures.hpp"

#include <algorithm>
#include <array>

namespace roostward::siting {

namespace {

std::optional<double> flight(const Subject& subject) {
    if (subject.reference_density <= 0.0) return 0.0;
    return std::min(1.0, subject.activity.flight_density / subject.reference_density);
}

/// Laplace's rule of succession, so that one used evening of one is not certainty.
std::optional<double> evenings(const Subject& subject) {
    return (subject.activity.evenings_used + 1.0) / (subject.activity.evenings_watched + 2.0);
}

constexpr std::array evidence{Measure{"flight density", 5.0, flight},
                              Measure{"evenings used", 1.0, evenings}};

}  // namespace

std::span<const Measure> evidence_measures() {
    return evidence;
}

}  // namespace roostward::siting
