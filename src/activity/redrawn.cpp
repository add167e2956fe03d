#include "roostward/activity/redrawn.hpp"

#include "roostward/activity/evening_watch.hpp"
#include "roostward/core/vector_clones.hpp"

namespace roostward::activity {

namespace {

constexpr std::size_t lanes = 8;

std::size_t blocks_of(std::size_t draws) {
    return (draws + lanes - 1) / lanes;
}

struct EveningRow {
    const double *flown, *smoothed, *watched;
    const std::uint32_t* used;
    double enough;  ///< hours from which on an evening counts as watched
};

struct Sums {
    double *flown, *smoothed, *watched, *evenings_watched, *evenings_used;
};

/// All sums of one block of draws.
ROOSTWARD_VECTOR_CLONES
void sum_block(const double* times, std::size_t evenings, const EveningRow& row, const Sums& sums) {
    double flown[lanes] = {}, smoothed[lanes] = {}, watched[lanes] = {}, on[lanes] = {}, used[lanes] = {};
    for (std::size_t n = 0; n < evenings; ++n) {
        const double counts = row.watched[n] >= row.enough ? 1.0 : 0.0;
        const double uses = row.used[n] > 0 ? counts : 0.0;
        const double* const so_often = times + n * lanes;
        for (std::size_t i = 0; i < lanes; ++i) {
            flown[i] += so_often[i] * row.flown[n];
            smoothed[i] += so_often[i] * row.smoothed[n];
            watched[i] += so_often[i] * row.watched[n];
            on[i] += so_often[i] * counts;
            used[i] += so_often[i] * uses;
        }
    }
    for (std::size_t i = 0; i < lanes; ++i) {
        sums.flown[i] = flown[i];
        sums.smoothed[i] = smoothed[i];
        sums.watched[i] = watched[i];
        sums.evenings_watched[i] = on[i];
        sums.evenings_used[i] = used[i];
    }
}

ROOSTWARD_VECTOR_CLONES
void rates_of(std::size_t draws, const double* flown, const double* smoothed, const double* mean_rate,
              core::Hours shrink, double* rates) {
    for (std::size_t d = 0; d < draws; ++d)
        rates[d] = FlightDensity::rate(flown[d], core::Hours(smoothed[d]), mean_rate[d], shrink);
}

}  // namespace

Redraws::Redraws(const FlightDensity& density, std::span<const EveningDraw> draws)
    : min_watch_(density.min_watch()),
      shrink_(density.bandwidth().shrink),
      evenings_(draws.empty() ? 0 : draws.front().times.size()),
      times_(blocks_of(draws.size()) * evenings_ * lanes, 0.0) {
    for (std::size_t d = 0; d < draws.size(); ++d) {
        mean_rates_.push_back(density.mean_rate(draws[d].times));
        weights_.push_back(draws[d].weight);
        for (std::size_t n = 0; n < evenings_; ++n)
            times_[(d / lanes * evenings_ + n) * lanes + d % lanes] = draws[d].times[n];
    }
}

RedrawnPoint::RedrawnPoint(const Redraws& redraws) : redraws_(redraws) {
    for (auto* sums : {&flown_, &smoothed_, &watched_, &evenings_watched_, &evenings_used_})
        sums->resize(blocks_of(redraws.size()) * lanes);
}

void RedrawnPoint::look_at(const EveningTable& table, std::size_t point) {
    const std::size_t at = table.at(point, 0);
    const EveningRow row{&table.flown[at], &table.smoothed[at], &table.watched[at], &table.used[at],
                         enough_on_an_evening(redraws_.min_watch_).value()};
    for (std::size_t block = 0; block < blocks_of(redraws_.size()); ++block) {
        const std::size_t first = block * lanes;
        sum_block(&redraws_.times_[first * redraws_.evenings_], redraws_.evenings_, row,
                  {&flown_[first], &smoothed_[first], &watched_[first], &evenings_watched_[first],
                   &evenings_used_[first]});
    }
}

void RedrawnPoint::rates(core::Hours shrink, std::span<double> rates) const {
    rates_of(redraws_.size(), flown_.data(), smoothed_.data(), redraws_.mean_rates_.data(), shrink,
             rates.data());
}

PointActivity RedrawnPoint::in(std::size_t draw) const {
    PointActivity seen;
    seen.flown = flown_[draw];
    seen.smoothed = core::Hours(smoothed_[draw]);
    seen.watch_hours = core::Hours(watched_[draw]);
    seen.flight_density =
        FlightDensity::rate(seen.flown, seen.smoothed, redraws_.mean_rates_[draw], redraws_.shrink_);
    seen.evenings_watched = static_cast<std::uint32_t>(evenings_watched_[draw]);
    seen.evenings_used = static_cast<std::uint32_t>(evenings_used_[draw]);
    seen.watched = seen.watch_hours >= redraws_.min_watch_;
    return seen;
}

}  // namespace roostward::activity
