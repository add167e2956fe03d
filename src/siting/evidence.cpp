#include "evidence.hpp"

#include "roostward/core/vector_clones.hpp"

namespace roostward::siting {

namespace {

ROOSTWARD_VECTOR_CLONES
void score_all(std::size_t draws, const double* flight_density, const double* used, const double* watched,
               double reference, double kept, double* scores) {
    for (std::size_t d = 0; d < draws; ++d) {
        const double evidence =
            weighed(flight_utility(flight_density[d], reference), evenings_utility(used[d], watched[d]));
        scores[d] = in_millionths(evidence * kept);
    }
}

}  // namespace

Evidence evidence_of(const Subject& subject) {
    return {subject.activity.flight_density, evidence_score(subject),
            has_enough_evidence(subject.activity, subject.reference_density)};
}

double score_of(const Evidence& evidence, double kept) {
    return in_millionths(evidence.score * kept);
}

void scores_of(const Redrawn& seen, double reference_density, double kept, std::span<double> scores) {
    score_all(scores.size(), seen.flight_density.data(), seen.evenings_used.data(),
              seen.evenings_watched.data(), reference_density, kept, scores.data());
}

Contender contender_of(std::span<const Candidate> candidates, std::size_t tree) {
    const Candidate& candidate = candidates[tree];
    return {tree, candidate.score, candidate.activity.flight_density, candidate.wish == Wish::must};
}

bool better(const Contender& one, const Contender& other) {
    if (one.score != other.score) return one.score > other.score;
    if (one.flight_density != other.flight_density) return one.flight_density > other.flight_density;
    return one.tree < other.tree;
}

}  // namespace roostward::siting
