#include "roostward/siting/redraws.hpp"

#include <algorithm>
#include <utility>

#include "evidence.hpp"

namespace roostward::siting {

namespace {

/// What is hardly watched leans on the mean in every re-draw alike, and would look sure. Ranges are of rates
/// that lean on it for three minutes only.
double hardly_shrunk(const activity::PointActivity& seen, double mean_rate) {
    constexpr core::Hours shrink{0.05};
    return activity::FlightDensity::rate(seen.flown, seen.smoothed, mean_rate, shrink);
}

std::optional<activity::Range> holding(double estimate, std::optional<activity::Range> range) {
    if (!range) return range;
    return activity::Range{std::min(range->low, estimate), std::max(range->high, estimate)};
}

struct Redraws {
    std::span<const activity::EveningDraw> draws;
    std::vector<double> mean_rates;  ///< one a re-draw
};

Redraws redraws_of(std::span<const activity::EveningDraw> draws, const activity::FlightDensity& density) {
    Redraws redraws{draws, {}};
    for (const auto& draw : draws)
        redraws.mean_rates.push_back(density.mean_rate(draw.times));
    return redraws;
}

/// Gives every tree its ranges. Returns which could be chosen in some re-draw, having enough evidence there.
std::vector<std::size_t> range_all(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                                   const activity::FlightDensity& density,
                                   const activity::EveningTable& table, const Redraws& redraws,
                                   core::Threads threads) {
    const double reference = reference_density(candidates);
    const activity::Ranges ranges(table.evenings);
    std::vector<std::uint8_t> ever_enough(candidates.size(), 0);
    core::parallel_for(candidates.size(), 256, threads, [&](std::size_t begin, std::size_t end) {
        std::vector<activity::Weighted> flight_density(redraws.draws.size()), score(redraws.draws.size());
        for (std::size_t i = begin; i < end; ++i) {
            Candidate& candidate = candidates[i];
            if (candidate.verdict.state > trees::State::settle_first) continue;
            for (std::size_t d = 0; d < redraws.draws.size(); ++d) {
                const auto seen = density.summarise(table, i, redraws.draws[d].times, redraws.mean_rates[d]);
                const Evidence evidence = evidence_of({inventory.rows[i], seen, reference});
                flight_density[d] = {hardly_shrunk(seen, redraws.mean_rates[d]), redraws.draws[d].weight};
                score[d] = {evidence.score, redraws.draws[d].weight};
                if (evidence.enough && candidate.can_be_chosen()) ever_enough[i] = 1;
            }
            const std::size_t evenings = candidate.activity.evenings_watched;
            candidate.flight_range = holding(
                candidate.activity.flight_density,
                ranges.of(hardly_shrunk(candidate.activity, density.mean_rate()), flight_density, evenings));
            candidate.score_range = ranges.of(candidate.score, score, evenings);
            if (candidate.score_range)
                candidate.score_range->high = std::min(1.0, candidate.score_range->high);
        }
    });
    std::vector<std::size_t> choosable;
    for (std::size_t i = 0; i < candidates.size(); ++i)
        if (ever_enough[i] != 0) choosable.push_back(i);
    return choosable;
}

}  // namespace

Rechoice::Rechoice(std::span<const Candidate> candidates, const trees::Inventory& inventory,
                   const activity::FlightDensity& density, const ChoiceSettings& settings,
                   std::vector<std::size_t> trees, activity::EveningTable table)
    : inventory_(inventory),
      density_(density),
      settings_(settings),
      reference_(reference_density(candidates)),
      trees_(std::move(trees)),
      table_(std::move(table)) {}

std::vector<std::size_t> Rechoice::with(std::span<const std::uint16_t> times, double mean_rate) const {
    return chosen_by(table_, times, mean_rate);
}

std::vector<std::size_t> Rechoice::without(const activity::EveningTable& part, double mean_rate) const {
    return chosen_by(activity::difference(table_, part), std::vector<std::uint16_t>(table_.evenings, 1),
                     mean_rate);
}

std::vector<core::PlanePoint> Rechoice::stems() const {
    std::vector<core::PlanePoint> stems;
    for (const std::size_t tree : trees_)
        stems.push_back(inventory_.rows[tree].stem);
    return stems;
}

std::vector<std::size_t> Rechoice::chosen_by(const activity::EveningTable& table,
                                             std::span<const std::uint16_t> times, double mean_rate) const {
    std::vector<Contender> contenders;
    for (std::size_t k = 0; k < trees_.size(); ++k) {
        const Evidence evidence = evidence_of(
            {inventory_.rows[trees_[k]], density_.summarise(table, k, times, mean_rate), reference_});
        if (evidence.enough) contenders.push_back({trees_[k], evidence.score, evidence.flight_density});
    }
    return best_apart(std::move(contenders), inventory_, settings_);
}

void give_ranges(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                 const activity::FlightDensity& density, const activity::EveningTable& table,
                 std::span<const activity::EveningDraw> draws, const ChoiceSettings& settings,
                 core::Threads threads) {
    const Redraws redraws = redraws_of(draws, density);
    const std::vector<std::size_t> choosable =
        range_all(candidates, inventory, density, table, redraws, threads);
    const Rechoice choice(candidates, inventory, density, settings, choosable,
                          activity::rows_of(table, choosable));
    std::vector<std::vector<std::size_t>> chosen(draws.size());
    core::parallel_for(draws.size(), 4, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t d = begin; d < end; ++d)
            chosen[d] = choice.with(draws[d].times, redraws.mean_rates[d]);
    });
    for (std::size_t d = 0; d < draws.size(); ++d)
        for (const std::size_t tree : chosen[d])
            candidates[tree].stays_chosen += draws[d].weight;
}

}  // namespace roostward::siting
