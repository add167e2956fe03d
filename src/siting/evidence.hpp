#pragma once

#include <cstddef>
#include <vector>

#include "roostward/siting/measures.hpp"
#include "roostward/siting/settings.hpp"

namespace roostward::siting {

/// What the watches say of one tree.
struct Evidence {
    double flight_density = 0.0;
    double score = 0.0;  ///< weighted mean of the evidence utilities, rounded to 1e-6
    bool enough = false;
};
[[nodiscard]] Evidence evidence_of(const Subject& subject);

/// `kept`: see Kept. Rounded to 1e-6.
[[nodiscard]] double score_of(const Evidence& evidence, double kept);

/// A tree that may be chosen.
struct Contender {
    std::size_t tree = 0;
    double score = 0.0;
    double flight_density = 0.0;
};

/// Higher score, then higher flight density, then earlier in the inventory.
[[nodiscard]] bool better(const Contender& one, const Contender& other);

/// Up to `sites` of them, best first, no two closer than the spacing.
[[nodiscard]] std::vector<std::size_t> best_apart(std::vector<Contender> contenders,
                                                  const trees::Inventory& inventory,
                                                  const ChoiceSettings& settings);

}  // namespace roostward::siting
