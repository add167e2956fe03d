#include "evidence.hpp"

#include <algorithm>
#include <cmath>

#include "roostward/siting/candidates.hpp"

namespace roostward::siting {

namespace {

double rounded(double score) {
    return std::round(score * 1e6) / 1e6;
}

}  // namespace

Evidence evidence_of(const Subject& subject) {
    return {subject.activity.flight_density, evidence_score(subject),
            has_enough_evidence(subject.activity, subject.reference_density)};
}

double score_of(const Evidence& evidence, double kept) {
    return rounded(evidence.score * kept);
}

bool better(const Contender& one, const Contender& other) {
    if (one.score != other.score) return one.score > other.score;
    if (one.flight_density != other.flight_density) return one.flight_density > other.flight_density;
    return one.tree < other.tree;
}

std::vector<std::size_t> best_apart(std::vector<Contender> contenders, const trees::Inventory& inventory,
                                    const ChoiceSettings& settings) {
    const auto worse = [](const Contender& a, const Contender& b) { return better(b, a); };
    std::ranges::make_heap(contenders, worse);
    std::vector<std::size_t> taken;
    while (!contenders.empty() && taken.size() < settings.sites) {
        std::ranges::pop_heap(contenders, worse);
        const std::size_t tree = contenders.back().tree;
        contenders.pop_back();
        const auto too_close = [&](std::size_t other) {
            return core::distance(inventory.rows[tree].stem, inventory.rows[other].stem) < settings.spacing;
        };
        if (!std::ranges::any_of(taken, too_close)) taken.push_back(tree);
    }
    return taken;
}

}  // namespace roostward::siting
