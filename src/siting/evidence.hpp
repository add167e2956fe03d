#pragma once

#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include "roostward/siting/candidates.hpp"
#include "roostward/siting/measures.hpp"
#include "roostward/siting/settings.hpp"

namespace roostward::siting {

/// To the nearest millionth, halves up. Not negative.
[[nodiscard]] inline double in_millionths(double score) {
    const double whole = std::floor(score * 1e6);
    return (whole + (score * 1e6 - whole >= 0.5 ? 1.0 : 0.0)) / 1e6;
}

/// Evidence of these utilities, see evidence_score.
[[nodiscard]] inline double weighed(double flight, double evenings) {
    return in_millionths(flight_weight * flight + evenings_weight * evenings);
}

/// What the watches say of one tree.
struct Evidence {
    double flight_density = 0.0;
    double score = 0.0;  ///< weighted mean of the evidence utilities, rounded to 1e-6
    bool enough = false;
};
[[nodiscard]] Evidence evidence_of(const Subject& subject);

/// `kept`: see Kept. Rounded to 1e-6.
[[nodiscard]] double score_of(const Evidence& evidence, double kept);

/// What the watches say of one tree in each of several re-draws.
struct Redrawn {
    std::span<const double> flight_density, evenings_used, evenings_watched;
};
/// Scores of one tree, re-draw by re-draw. The same bits as `score_of` gives.
void scores_of(const Redrawn& seen, double reference_density, double kept, std::span<double> scores);

/// A tree that may be chosen.
struct Contender {
    std::size_t tree = 0;
    double score = 0.0;
    double flight_density = 0.0;
    bool must = false;  ///< be chosen, whatever its score
};
[[nodiscard]] Contender contender_of(std::span<const Candidate> candidates, std::size_t tree);

/// Higher score, then higher flight density, then earlier in the inventory.
[[nodiscard]] bool better(const Contender& one, const Contender& other);

/// The set that `choose` would choose among them, as far as a short search finds it, best first. What must be
/// chosen has to be among them.
[[nodiscard]] std::vector<std::size_t> best_apart(std::vector<Contender> contenders,
                                                  const trees::Inventory& inventory,
                                                  const ChoiceSettings& settings);

}  // namespace roostward::siting
