#include "roostward/siting/measures.hpp"

#include "evidence.hpp"

namespace roostward::siting {

std::array<EvidencePart, 2> evidence_parts(const Subject& subject) {
    const activity::PointActivity& seen = subject.activity;
    return {EvidencePart{"flight density", flight_weight,
                         flight_utility(seen.flight_density, subject.reference_density)},
            {"evenings used", evenings_weight, evenings_utility(seen.evenings_used, seen.evenings_watched)}};
}

double evidence_score(const Subject& subject) {
    const auto [flight, evenings] = evidence_parts(subject);
    return weighed(flight.utility, evenings.utility);
}

}  // namespace roostward::siting
