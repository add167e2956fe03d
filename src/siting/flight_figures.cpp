#include "roostward/siting/flight_figures.hpp"

#include <algorithm>
#include <numbers>
#include <numeric>
#include <utility>

#include "roostward/activity/flights_past.hpp"
#include "roostward/activity/rates.hpp"
#include "roostward/siting/redraws.hpp"

namespace roostward::siting {

namespace {

constexpr double flown_disc =
    std::numbers::pi * activity::flown_reach.value() * activity::flown_reach.value();  // m²

// Set on the parks 1 to 200 and 1001 to 1150, held on 3001 to 3200; common practice, no source.
constexpr activity::Unexplained of_flights{0.08, 0.02, 0.18};
constexpr activity::Unexplained of_metres{0.06, 0.0, 0.6};

std::vector<std::size_t> watched_trees(const std::vector<Candidate>& candidates, bool only_for_boxes) {
    std::vector<std::size_t> watched;
    for (std::size_t i = 0; i < candidates.size(); ++i)
        if (candidates[i].activity.watched && (!only_for_boxes || candidates[i].may_hold_a_box()))
            watched.push_back(i);
    return watched;
}

/// Rows of the trees to learn from.
std::vector<std::size_t> rows_for_boxes(const std::vector<Candidate>& candidates,
                                        std::span<const std::size_t> trees) {
    std::vector<std::size_t> rows;
    for (std::size_t k = 0; k < trees.size(); ++k)
        if (candidates[trees[k]].may_hold_a_box()) rows.push_back(k);
    if (!rows.empty()) return rows;
    rows.resize(trees.size());
    std::iota(rows.begin(), rows.end(), std::size_t{0});
    return rows;
}

activity::Range holding(double figure, const activity::Range& range) {
    return {std::min(figure, range.low), std::max(figure, range.high)};
}

bool nothing_seen(const activity::CountTable& flights, std::size_t row) {
    const auto first = flights.counts.begin() + static_cast<std::ptrdiff_t>(row * flights.evenings);
    return std::all_of(first, first + static_cast<std::ptrdiff_t>(flights.evenings),
                       [](double count) { return count == 0.0; });
}

}  // namespace

void give_flight_figures(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                         const survey::Survey& flown, const Settings& settings, core::Threads threads) {
    const std::vector<std::size_t> trees = watched_trees(candidates, settings.ranking_only);
    if (trees.empty()) return;
    activity::PastTable past = activity::FlightsPast(flown).at(stems_of(inventory, trees), threads);
    const activity::CountTable flights{past.evenings, std::move(past.flights), past.hours, past.one_flight};
    const activity::CountTable metres{past.evenings, std::move(past.metres), std::move(past.hours),
                                      past.one_flown};
    const std::vector<std::size_t> learn = rows_for_boxes(candidates, trees);
    const double spread =
        activity::evening_spread_of(flights, learn, settings.activity.evening_spread, threads);
    const activity::Rates flight_rates(flights, learn, spread, of_flights);
    const activity::Rates metre_rates(metres, learn, spread, of_metres);
    core::parallel_for(trees.size(), 64, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t row = begin; row < end; ++row) {
            Candidate& tree = candidates[trees[row]];
            const std::size_t evenings = tree.activity.evenings_watched;
            const activity::RateEstimate rate = flight_rates.of(flights, row, evenings);
            const bool none = nothing_seen(flights, row);
            tree.flights = none ? NearFlights{0.0, true, activity::Range{0.0, rate.range.high}}
                                : NearFlights{rate.mean, false, holding(rate.mean, rate.range)};
            const activity::Range flown_near = metre_rates.of(metres, row, evenings).range;
            tree.flight_range = holding(tree.activity.flight_density,
                                        {flown_near.low / flown_disc, flown_near.high / flown_disc});
        }
    });
}

}  // namespace roostward::siting
