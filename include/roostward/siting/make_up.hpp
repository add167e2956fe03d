#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "roostward/activity/ranges.hpp"
#include "roostward/siting/candidates.hpp"
#include "roostward/siting/settings.hpp"

namespace roostward::siting {

/// What one measure does to a tree's score.
struct ScorePart {
    std::string_view measure;
    std::optional<double> value;  ///< as measured, in `unit`
    std::string_view unit;
    std::optional<double> utility;         ///< 0–1; empty where it is not known
    double weight = 0.0;                   ///< how far the score hangs on it: 1 is all
    double contribution = 0.0;             ///< below 0 where the place takes away
    std::optional<activity::Range> range;  ///< of the contribution; empty where nothing is known of it
};

/// The parts of a watched tree's score. Evidence adds, the place takes away; together they are the score, to
/// 2e-6. `reference`: λ_ref.
[[nodiscard]] std::vector<ScorePart> make_up(const Candidate& candidate, const trees::Tree& tree,
                                             double reference, const Settings& settings);

}  // namespace roostward::siting
