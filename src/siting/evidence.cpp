#include "evidence.hpp"

namespace roostward::siting {

Evidence evidence_of(const Subject& subject) {
    return {subject.activity.flight_density, evidence_score(subject),
            has_enough_evidence(subject.activity, subject.reference_density)};
}

double score_of(const Evidence& evidence, double kept) {
    return in_millionths(evidence.score * kept);
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
