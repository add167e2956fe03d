#include "roostward/siting/redraws.hpp"

#include <algorithm>
#include <optional>
#include <span>
#include <utility>

#include "best_of_draws.hpp"
#include "evidence.hpp"
#include "roostward/activity/redrawn.hpp"
#include "roostward/siting/choice.hpp"

namespace roostward::siting {

namespace {

/// By what is not known of the place too.
std::optional<activity::Range> widened(std::optional<activity::Range> scores, const Kept& kept) {
    if (!scores) return scores;
    const double low = kept.middle > 0.0 ? kept.low / kept.middle : 1.0;
    const double high = kept.middle > 0.0 ? kept.high / kept.middle : 1.0;
    return activity::Range{scores->low * low, std::min(1.0, scores->high * high)};
}

/// Of each re-draw so many are looked at first: a choice seldom goes further down.
constexpr std::size_t most_contenders = 128;

/// Gives every tree its ranges, and the re-draws their best contenders of those that need not be chosen.
void range_all(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
               const activity::FlightDensity& density, const activity::EveningTable& table,
               const activity::Redraws& redraws, const ChoiceSettings& settings, BestOfDraws& best,
               core::Threads threads) {
    const double reference = reference_density(candidates);
    const activity::Ranges ranges(table.evenings);
    core::parallel_for(candidates.size(), 256, threads, [&](std::size_t begin, std::size_t end) {
        activity::RedrawnPoint point(redraws);
        std::vector<double> rates(redraws.size()), scores(redraws.size());
        std::vector<activity::Weighted> sample(redraws.size());
        const auto range_of = [&](double estimate, std::span<const double> redrawn, std::size_t evenings) {
            for (std::size_t d = 0; d < redraws.size(); ++d)
                sample[d] = {redrawn[d], redraws.weight(d)};
            return ranges.of(estimate, sample, evenings);
        };
        std::vector<BestOfDraws::Offer> offers;
        for (std::size_t i = begin; i < end; ++i) {
            Candidate& candidate = candidates[i];
            if (!candidate.may_hold_a_box()) continue;
            const bool joins = candidate.can_be_chosen() && candidate.wish == Wish::none &&
                               may_join(candidate, inventory.rows[i], settings);
            const std::size_t evenings = candidate.activity.evenings_watched;
            const bool has_ranges = evenings >= activity::least_evenings_for_range;
            if (!joins && !has_ranges) continue;
            point.look_at(table, i);
            point.rates(density.bandwidth().shrink, rates);
            scores_of({rates, point.evenings_used(), point.evenings_watched()}, reference,
                      candidate.kept.middle, scores);
            for (std::size_t d = 0; joins && d < redraws.size(); ++d) {
                if (!best.may_stay(d, scores[d]) || !has_enough_evidence(point.in(d), reference)) continue;
                offers.push_back({d, {i, scores[d], rates[d]}});
            }
            if (!has_ranges) continue;
            candidate.score_range = widened(range_of(candidate.score, scores, evenings), candidate.kept);
        }
        best.take(offers);
    });
}

/// They are in every set.
std::vector<Contender> musts_of(std::span<const Candidate> candidates) {
    std::vector<Contender> musts;
    for (std::size_t i = 0; i < candidates.size(); ++i)
        if (candidates[i].wish == Wish::must) musts.push_back(contender_of(candidates, i));
    return musts;
}

std::vector<std::size_t> choosable_trees(std::span<const Candidate> candidates) {
    std::vector<std::size_t> trees;
    for (std::size_t i = 0; i < candidates.size(); ++i)
        if (candidates[i].can_be_chosen()) trees.push_back(i);
    return trees;
}

}  // namespace

Rechoice::Rechoice(std::span<const Candidate> candidates, const trees::Inventory& inventory,
                   const activity::FlightDensity& density, const ChoiceSettings& settings, double reference,
                   std::vector<std::size_t> trees, activity::EveningTable table)
    : candidates_(candidates),
      inventory_(inventory),
      density_(density),
      settings_(settings),
      reference_(reference),
      trees_(std::move(trees)),
      table_(std::move(table)) {}

std::vector<std::size_t> Rechoice::with(std::span<const std::uint16_t> times) const {
    return chosen_by(table_, times, density_.mean_rate(times));
}

std::vector<std::size_t> Rechoice::without(const activity::FlightDensity& part, core::Threads threads) const {
    const auto rest = activity::difference(table_, part.at(stems_of(inventory_, trees_), threads));
    return chosen_by(rest, activity::each_once(table_.evenings), density_.mean_rate_without(part));
}

std::vector<std::size_t> Rechoice::chosen_by(const activity::EveningTable& table,
                                             std::span<const std::uint16_t> times, double mean_rate) const {
    std::vector<Contender> contenders;
    for (std::size_t k = 0; k < trees_.size(); ++k) {
        const Evidence evidence = evidence_of(
            {inventory_.rows[trees_[k]], density_.summarise(table, k, times, mean_rate), reference_});
        const Candidate& candidate = candidates_[trees_[k]];
        const double score = score_of(evidence, candidate.kept.middle);
        const bool must = candidate.wish == Wish::must;
        if (must || (evidence.enough && may_join(candidate, inventory_.rows[trees_[k]], settings_)))
            contenders.push_back({trees_[k], score, evidence.flight_density, must});
    }
    return best_apart(std::move(contenders), inventory_, settings_);
}

std::vector<core::PlanePoint> stems_of(const trees::Inventory& inventory,
                                       std::span<const std::size_t> trees) {
    std::vector<core::PlanePoint> stems;
    for (const std::size_t tree : trees)
        stems.push_back(inventory.rows[tree].stem);
    return stems;
}

void give_ranges(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                 const activity::FlightDensity& density, const activity::EveningTable& table,
                 std::span<const activity::EveningDraw> draws, const ChoiceSettings& settings,
                 core::Threads threads) {
    const activity::Redraws redraws(density, draws);
    BestOfDraws best(redraws.size(), most_contenders);
    range_all(candidates, inventory, density, table, redraws, settings, best, threads);
    const std::vector<Contender> musts = musts_of(candidates);
    // Quotas and a budget may leave fewer than were asked for.
    const std::size_t sites = in_order_of_site(candidates).size();
    std::optional<Rechoice> among_all;
    for (std::size_t d = 0; d < draws.size(); ++d) {
        std::vector<Contender> contenders = best.of(d);
        contenders.insert(contenders.end(), musts.begin(), musts.end());
        std::vector<std::size_t> chosen = best_apart(std::move(contenders), inventory, settings);
        if (chosen.size() < sites && !best.has_all(d)) {
            if (!among_all) {
                const std::vector<std::size_t> trees = choosable_trees(candidates);
                among_all.emplace(candidates, inventory, density, settings, reference_density(candidates),
                                  trees, activity::rows_of(table, trees));
            }
            chosen = among_all->with(draws[d].times);
        }
        for (const std::size_t tree : chosen)
            candidates[tree].stays_chosen += draws[d].weight;
    }
}

}  // namespace roostward::siting
