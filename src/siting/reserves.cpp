#include "roostward/siting/reserves.hpp"

#include <algorithm>

#include "evidence.hpp"
#include "roostward/siting/choice.hpp"

namespace roostward::siting {

namespace {

class Substitutes {
 public:
    Substitutes(std::span<const Candidate> candidates, const trees::Inventory& inventory,
                const ChoiceSettings& settings)
        : candidates_(candidates),
          inventory_(inventory),
          settings_(settings),
          chosen_(in_order_of_site(candidates)) {
        settings_.sites = chosen_.size();
        for (const std::size_t tree : in_order_of_rank(candidates))
            if (!candidates[tree].site && candidates[tree].enough_evidence &&
                may_join(candidates[tree], inventory.rows[tree], settings))
                waiting_.push_back(tree);
    }

    [[nodiscard]] Reserves reserves() const {
        Reserves all;
        for (const std::size_t site : chosen_)
            all.of_sites.push_back(reserve_of(site));
        for (const std::size_t tree : waiting_) {
            if (all.in_order.size() >= 2 * chosen_.size()) break;
            std::vector<std::size_t> sites = sites_for(tree);
            if (!sites.empty()) all.in_order.push_back({tree, std::move(sites)});
        }
        return all;
    }

 private:
    [[nodiscard]] core::Metres between(std::size_t one, std::size_t another) const {
        return core::distance(inventory_.rows[one].stem, inventory_.rows[another].stem);
    }

    [[nodiscard]] bool can_replace(std::size_t site, std::size_t tree) const {
        std::vector<Contender> set{contender_of(candidates_, tree)};
        for (const std::size_t other : chosen_) {
            if (other == site) continue;
            if (between(tree, other) < settings_.spacing) return false;
            set.push_back(contender_of(candidates_, other));
        }
        return best_apart(std::move(set), inventory_, settings_).size() == chosen_.size();
    }

    [[nodiscard]] std::vector<std::size_t> sites_for(std::size_t tree) const {
        std::vector<std::size_t> sites;
        for (const std::size_t site : chosen_)
            if (can_replace(site, tree)) sites.push_back(*candidates_[site].site);
        return sites;
    }

    [[nodiscard]] Nearness nearness(std::size_t site, std::size_t tree) const {
        if (between(site, tree) <= near_by_within) return Nearness::near_by;
        const LineOffset* const one = line_beside(candidates_[site]);
        const LineOffset* const other = line_beside(candidates_[tree]);
        const bool same = one != nullptr && other != nullptr && one->line == other->line;
        return same ? Nearness::same_flight_line : Nearness::anywhere;
    }

    [[nodiscard]] std::optional<Reserve> reserve_of(std::size_t site) const {
        std::optional<Reserve> best;
        for (const std::size_t tree : waiting_) {
            const Nearness near = nearness(site, tree);
            if ((best && near >= best->nearness) || !can_replace(site, tree)) continue;
            best = Reserve{tree, near, between(site, tree)};
            if (near == Nearness::near_by) break;
        }
        return best;
    }

    std::span<const Candidate> candidates_;
    const trees::Inventory& inventory_;
    ChoiceSettings settings_;
    std::vector<std::size_t> chosen_;   ///< site 1 first
    std::vector<std::size_t> waiting_;  ///< not chosen, with enough evidence, best first
};

}  // namespace

Reserves reserves_of(std::span<const Candidate> candidates, const trees::Inventory& inventory,
                     const ChoiceSettings& settings) {
    return Substitutes(candidates, inventory, settings).reserves();
}

}  // namespace roostward::siting
