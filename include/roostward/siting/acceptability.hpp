#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "roostward/activity/evening_draws.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/siting/candidates.hpp"
#include "roostward/siting/certainty.hpp"
#include "roostward/siting/settings.hpp"

namespace roostward::siting {

/// How many draws are made: 10,000, of which no share is 0.01 off with 95 %. Where many sites are chosen
/// among very many trees each choice takes long: then 1.28e9 / (sites² · trees), but at least 500.
[[nodiscard]] std::size_t weight_draws(std::size_t sites, std::size_t trees);

/// With 95 % no share of so many draws is farther off: 1.96 · 0.5 / √draws.
[[nodiscard]] double error_of_shares(std::size_t draws);

/// Trees of a group cannot be told apart: in this share of the draws or more each of them scores as high as
/// the group's first. Common practice, no source.
inline constexpr double told_apart_below = 0.2;

/// Stochastic multicriteria acceptability (Lahdelma & Salminen 2001, Operations Research 49): how often each
/// tree is chosen if nobody knew the weights. The parts of the fitness that take part are weighed anew,
/// uniformly on their simplex, and the share of the place uniformly between none and twice the plan's, at
/// most 1: evidence keeps the lead, as in the plan. Where no part takes part the weights cannot change. Once
/// with the evenings as they were, once with re-drawn ones.
///
/// The best 2,000 trees with half the flight that is enough take part; of a draw the best 32 or more, but at
/// most eight of those that stand so close that one at most is chosen. Gives them their acceptability, and
/// the best ranked of them, three times `sites` but at least 30 and at most 200, their group: down the
/// ranking a tree joins the group of the tree before it as long as the group's first cannot be told from it.
/// The same for any number of threads; drawn from the plan's seed. Returns how many draws were made; 0 where
/// nothing is chosen.
std::size_t give_acceptability(std::vector<Candidate>& candidates, const Evidenced& data,
                               std::span<const activity::EveningDraw> evenings, const Settings& settings,
                               core::Threads threads);

}  // namespace roostward::siting
