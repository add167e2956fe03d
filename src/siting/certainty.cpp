#include "roostward/siting/certainty.hpp"

#include "roostward/siting/acceptability.hpp"
#include "roostward/siting/redraws.hpp"

namespace roostward::siting {

namespace {

constexpr std::size_t most_random_draws = 200;

}  // namespace

Certainty how_sure(std::vector<Candidate>& candidates, const Evidenced& data, const Settings& settings,
                   core::Threads threads) {
    const std::size_t evenings = data.survey.evenings.size();
    const auto draws = activity::draw_evenings(evenings, settings.activity.seed, most_random_draws);
    give_ranges(candidates, data.inventory, data.density, data.at_trees, draws, settings.choice, threads);
    if (settings.ranking_only) return {evenings, draws.size(), 0};
    const std::size_t weighed = give_acceptability(candidates, data, draws, settings, threads);
    return {evenings, draws.size(), weighed};
}

}  // namespace roostward::siting
