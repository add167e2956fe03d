#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "roostward/core/finding.hpp"
#include "roostward/siting/candidates.hpp"
#include "roostward/siting/settings.hpp"

namespace roostward::siting {

/// A group of a quota with as many chosen trees as it may have.
struct FullGroup {
    Quota quota;
    std::string name;          ///< as an owner's; empty: not told
    std::size_t kept_out = 0;  ///< trees with enough evidence and distance that could be chosen but for this
};

/// How good the chosen set is among all that keep the rules. Scores are sums over the set.
struct Choice {
    double total_score = 0.0;
    double bound = 0.0;           ///< no set that keeps the rules has more
    bool proven = false;          ///< none has more than this one
    bool unique = false;          ///< and none has as much with trees that rank as well together
    std::size_t considered = 0;   ///< trees that the best set could hold, as was shown beforehand
    std::size_t nodes = 0;        ///< of the search trees
    bool by_cbc = false;          ///< COIN-OR CBC was asked, because the search alone did not get to its end
    std::size_t too_near = 0;     ///< trees with enough evidence that are only too near to a chosen one
    std::size_t too_dear = 0;     ///< the same that only cost more than is left of the budget
    std::vector<FullGroup> full;  ///< that keep a tree out
    std::optional<double> spent;  ///< of the budget

    /// How much better another set may be, as a share of this one's score; 0 where there is none.
    [[nodiscard]] double gap() const { return total_score > 0.0 ? bound / total_score - 1.0 : 0.0; }
};

/// "owner", as in the site file.
[[nodiscard]] std::string_view to_text(Shared shared);

/// What a tree counts as for a quota, in small letters; empty where not told.
[[nodiscard]] std::string group_of(const trees::Tree& tree, Shared shared);

/// Marks the trees that must or must not be chosen, and says what stands in the way of quotas and budget.
/// Throws Error{site_file} where no set can be what the site file asks for, as with an unknown tree or two
/// that are too near to each other, and Error{inputs} where a tree that must be chosen cannot be: it has to
/// be able to hold a box, and to have been watched, but not to have enough evidence.
[[nodiscard]] core::Findings heed_wishes(std::vector<Candidate>& candidates,
                                         const trees::Inventory& inventory, const Settings& settings);

/// Whether it takes part in the choice if its evidence is enough: nobody said never, and where there is a
/// budget its cost is told.
[[nodiscard]] bool may_join(const Candidate& candidate, const trees::Tree& tree,
                            const ChoiceSettings& settings);

/// Chooses up to `sites` trees with the largest sum of scores: those that must be, and others that can be
/// chosen and have enough evidence; no two closer than the spacing, within quotas and budget. Of equal sums
/// the set that ranks better together. Numbers them 1, 2 …, the best first.
Choice choose(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
              const ChoiceSettings& settings);

}  // namespace roostward::siting
