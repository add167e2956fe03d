#include "roostward/siting/measures.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

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

double evidence_score(const Subject& subject) {
    double sum = 0.0, weights = 0.0;
    const auto add = [&](const Measure& measure) __attribute__((always_inline)) {
        const auto utility = measure.utility(subject);
        if (!utility) return;
        sum += measure.weight * *utility;
        weights += measure.weight;
    };
    // Not a loop, so that the utilities become part of this: it is asked for every re-draw of every tree.
    std::apply([&add](const auto&... measure) { (add(measure), ...); }, evidence);
    return weights > 0.0 ? std::round(sum / weights * 1e6) / 1e6 : 0.0;
}

}  // namespace roostward::siting
