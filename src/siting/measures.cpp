#include "roostward/siting/measures.hpp"

#include <algorithm>

#include "evidence.hpp"

namespace roostward::siting {

namespace {

double flight(const Subject& subject) {
    if (subject.reference_density <= 0.0) return 0.0;
    return std::min(1.0, subject.activity.flight_density / subject.reference_density);
}

double evenings(const Subject& subject) {
    return (subject.activity.evenings_used + 1.0) / (subject.activity.evenings_watched + 2.0);
}

}  // namespace

std::array<EvidencePart, 2> evidence_parts(const Subject& subject) {
    return {EvidencePart{"flight density", 5.0 / 6.0, flight(subject)},
            {"evenings used", 1.0 / 6.0, evenings(subject)}};
}

double evidence_score(const Subject& subject) {
    double sum = 0.0;
    for (const EvidencePart& part : evidence_parts(subject))
        sum += part.weight * part.utility;
    return in_millionths(sum);
}

}  // namespace roostward::siting
