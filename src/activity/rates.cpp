#include "roostward/activity/rates.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>

#include "roostward/activity/kernel.hpp"
#include "roostward/core/vector_clones.hpp"

namespace roostward::activity {

namespace {

using Shares = Rates::Shares;

/// Rates are looked at from 1/400 of the mean to 40 times it, in even steps of the logarithm.
const double lowest = std::log(1.0 / 400.0), highest = std::log(40.0);
const double step = (highest - lowest) / static_cast<double>(Rates::rates - 1);
constexpr std::size_t most_places = 1000;
constexpr int passes_of_learning = 40;
/// The gamma distribution counts like so many places; its coefficient of variation.
constexpr double pseudo_places = 20.0, places_spread = 1.75;
/// All places together tell of the evenings' spread like so many that are independent.
constexpr double independent_places = 8.0;
constexpr double spread_log_sd = 0.5;
constexpr double enough_to_compare = 0.1;  // h
/// Share of a range's ends.
constexpr double low_share = 0.1, high_share = 0.9;

double log_rate(std::size_t i) {
    return lowest + step * static_cast<double>(i);
}

/// The rates themselves.
const Shares& rate_values() {
    static const Shares values = [] {
        Shares made{};
        for (std::size_t i = 0; i < made.size(); ++i)
            made[i] = std::exp(log_rate(i));
        return made;
    }();
    return values;
}

/// Adds `times` what lies between two rows of values, `share` of the way from the one to the other.
ROOSTWARD_VECTOR_CLONES
void add_between(const double* below, const double* above, double share, double times, Shares& sums) {
    for (std::size_t i = 0; i < Rates::rates; ++i)
        sums[i] += times * (below[i] + share * (above[i] - below[i]));
}

/// log(1 + e^z) at z, z + step, …: from a table in which z may lie between steps, to 1e-7.
class SoftPlus {
 public:
    static const SoftPlus& table() {
        static const SoftPlus made;
        return made;
    }
    /// Adds `times` the values to `sums`.
    void add(double z, double times, Shares& sums) const {
        const double place = std::clamp((z - least) / step, 0.0, most_shift);
        const auto whole = static_cast<std::size_t>(place);
        const double fine = (place - static_cast<double>(whole)) * static_cast<double>(phases);
        const auto phase = std::min(static_cast<std::size_t>(fine), phases - 1);
        const double share = fine - static_cast<double>(phase);
        const double* below = values_.data() + phase * columns + whole;
        const double* above = below + columns;
        add_between(below, above, share, times, sums);
    }

 private:
    static constexpr std::size_t phases = 64, columns = 1024;
    static constexpr double least = -60.0;
    static constexpr double most_shift = static_cast<double>(columns - Rates::rates - 1);

    SoftPlus() : values_((phases + 1) * columns) {
        for (std::size_t p = 0; p <= phases; ++p)
            for (std::size_t c = 0; c < columns; ++c) {
                const double z = least + step * (static_cast<double>(c) +
                                                 static_cast<double>(p) / static_cast<double>(phases));
                values_[p * columns + c] = z > 0.0 ? z + std::log1p(std::exp(-z)) : std::log1p(std::exp(z));
            }
    }
    std::vector<double> values_;
};

double sum_of(const Shares& shares) {
    return std::accumulate(shares.begin(), shares.end(), 0.0);
}

/// Shares that sum to 1, from their logarithms.
ROOSTWARD_VECTOR_CLONES
Shares normalised(Shares logs) {
    const double most = *std::ranges::max_element(logs);
    for (double& share : logs)
        share = exp_of(share - most);
    const double sum = sum_of(logs);
    for (double& share : logs)
        share /= sum;
    return logs;
}

/// The gamma distribution with a mean of 1.
Shares log_gamma_prior() {
    constexpr double shape = 1.0 / (places_spread * places_spread);
    Shares logs{};
    for (std::size_t i = 0; i < logs.size(); ++i)
        logs[i] = shape * (log_rate(i) - rate_values()[i]);
    return logs;
}

std::vector<std::size_t> evenly_taken(std::span<const std::size_t> places) {
    const std::size_t each = (places.size() + most_places - 1) / most_places;
    std::vector<std::size_t> taken;
    for (std::size_t i = 0; i < places.size(); i += each)
        taken.push_back(places[i]);
    return taken;
}

/// Over all evenings; half of one thing noted where there is none, seen for as long as anywhere.
double mean_rate_of(const CountTable& table, std::span<const std::size_t> places) {
    double counts = 0.0, hours = 0.0, longest = 0.0;
    for (const std::size_t place : places) {
        double here = 0.0;
        for (std::size_t n = 0; n < table.evenings; ++n) {
            counts += table.counts[place * table.evenings + n];
            here += table.hours[place * table.evenings + n];
        }
        hours += here;
        longest = std::max(longest, here);
    }
    if (counts > 0.0 && hours > 0.0) return counts / hours;
    return longest > 0.0 ? 0.5 * table.one / longest : 1.0;
}

/// The posterior after its logarithm is blurred by a normal.
Shares blurred(const Shares& shares, double variance) {
    if (variance <= 0.0) return shares;
    const double sd = std::sqrt(variance);
    const auto reach = static_cast<std::ptrdiff_t>(std::ceil(4.0 * sd / step));
    std::vector<double> kernel;
    for (std::ptrdiff_t k = -reach; k <= reach; ++k) {
        const double away = step * static_cast<double>(k);
        kernel.push_back(exp_of(-0.5 * away * away / variance));
    }
    constexpr auto size = static_cast<std::ptrdiff_t>(Rates::rates);
    Shares wide{};
    for (std::ptrdiff_t i = 0; i < size; ++i) {
        const double share = shares[static_cast<std::size_t>(i)];
        if (share < 1e-12) continue;
        for (std::ptrdiff_t k = -reach; k <= reach; ++k)
            wide[static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(i + k, 0, size - 1))] +=
                share * kernel[static_cast<std::size_t>(k + reach)];
    }
    const double sum = sum_of(wide);
    for (double& share : wide)
        share /= sum;
    return wide;
}

double mean_of(const Shares& shares) {
    return std::inner_product(shares.begin(), shares.end(), rate_values().begin(), 0.0);
}

/// Shares are even within a step of the logarithm.
double quantile(const Shares& shares, double share) {
    double below = 0.0;
    for (std::size_t i = 0; i < shares.size(); ++i) {
        if (below + shares[i] >= share)
            return std::exp(log_rate(i) + step * ((share - below) / shares[i] - 0.5));
        below += shares[i];
    }
    return std::exp(highest);
}

/// Places watched on two evenings and more, as busy as the mean and more: the others have little to compare.
std::vector<std::size_t> comparable(const CountTable& table, std::span<const std::size_t> places) {
    const double mean = mean_rate_of(table, places);
    std::vector<std::size_t> twice;
    for (const std::size_t place : places) {
        if (mean_rate_of(table, {&place, 1}) < mean) continue;
        const auto row = table.hours.begin() + static_cast<std::ptrdiff_t>(place * table.evenings);
        const auto evenings = std::count_if(row, row + static_cast<std::ptrdiff_t>(table.evenings),
                                            [](double hours) { return hours >= enough_to_compare; });
        if (evenings > 1) twice.push_back(place);
    }
    return twice;
}

}  // namespace

Rates::Rates(const CountTable& table, std::span<const std::size_t> learn, double evening_spread,
             const Unexplained& unexplained)
    : size_(1.0 / (evening_spread * evening_spread)), unexplained_(unexplained) {
    const std::vector<std::size_t> places = evenly_taken(learn);
    mean_ = mean_rate_of(table, places);
    learn_prior(table, places);
}

Rates::Shares Rates::log_likelihood(const CountTable& table, std::size_t place) const {
    Shares logs{};
    double seen = 0.0;
    for (std::size_t n = 0; n < table.evenings; ++n) {
        const std::size_t at = place * table.evenings + n;
        if (table.hours[at] <= 0.0) continue;
        const double count = table.counts[at] / table.one;
        const double z = lowest + std::log(mean_ * table.hours[at] / table.one / size_);
        SoftPlus::table().add(z, -(count + size_), logs);
        seen += count;
    }
    for (std::size_t i = 0; i < logs.size(); ++i)
        logs[i] += seen * step * static_cast<double>(i);
    return logs;
}

void Rates::learn_prior(const CountTable& table, std::span<const std::size_t> learn) {
    std::vector<Shares> likelihoods;
    for (const std::size_t place : learn)
        likelihoods.push_back(normalised(log_likelihood(table, place)));
    const Shares gamma = normalised(log_gamma_prior());
    Shares prior = gamma;
    for (int pass = 0; pass < passes_of_learning; ++pass) {
        Shares next = gamma;
        for (double& share : next)
            share *= pseudo_places;
        for (const Shares& likelihood : likelihoods) {
            double sum = 0.0;
            for (std::size_t i = 0; i < rates; ++i)
                sum += prior[i] * likelihood[i];
            for (std::size_t i = 0; i < rates; ++i)
                next[i] += prior[i] * likelihood[i] / sum;
        }
        const double sum = sum_of(next);
        for (std::size_t i = 0; i < rates; ++i)
            prior[i] = next[i] / sum;
    }
    for (std::size_t i = 0; i < rates; ++i)
        log_prior_[i] = std::log(std::max(prior[i], std::numeric_limits<double>::min()));
}

double Rates::log_evidence(const CountTable& table, std::span<const std::size_t> places) const {
    double evidence = 0.0;
    for (const std::size_t place : places) {
        Shares logs = log_likelihood(table, place);
        double constant = 0.0;
        for (std::size_t n = 0; n < table.evenings; ++n) {
            const std::size_t at = place * table.evenings + n;
            if (table.hours[at] <= 0.0) continue;
            const double count = table.counts[at] / table.one;
            const double lowest_mean = std::exp(lowest) * mean_ * table.hours[at] / table.one;
            constant +=
                std::lgamma(count + size_) - std::lgamma(size_) + count * std::log(lowest_mean / size_);
        }
        for (std::size_t i = 0; i < rates; ++i)
            logs[i] += log_prior_[i];
        const double most = *std::ranges::max_element(logs);
        double sum = 0.0;
        for (const double log : logs)
            sum += exp_of(log - most);
        evidence += constant + most + std::log(sum);
    }
    return evidence;
}

RateEstimate Rates::of(const CountTable& table, std::size_t place, std::size_t evenings) const {
    Shares logs = log_likelihood(table, place);
    for (std::size_t i = 0; i < rates; ++i)
        logs[i] += log_prior_[i];
    const Shares posterior = normalised(logs);
    const double mean = mean_of(posterior);
    const double on_line = std::min(1.0, 0.5 * mean);
    const double line = unexplained_.line + unexplained_.line_one_evening /
                                                static_cast<double>(std::max<std::size_t>(evenings, 1));
    const Shares wide = blurred(posterior, (1.0 - on_line) * unexplained_.off_line + on_line * line);
    return {mean_ * mean, {mean_ * quantile(wide, low_share), mean_ * quantile(wide, high_share)}};
}

double evening_spread_of(const CountTable& table, std::span<const std::size_t> learn, double usual,
                         core::Threads threads) {
    const std::vector<std::size_t> places = comparable(table, evenly_taken(learn));
    if (places.empty()) return usual;
    constexpr std::size_t each_way = 6, tried = 2 * each_way + 1;
    const double weight = std::min(1.0, independent_places / static_cast<double>(places.size()));
    std::array<double, tried> spreads{}, logs{};
    core::parallel_for(tried, 1, threads, [&](std::size_t k, std::size_t) {
        const double away = 0.15 * (static_cast<double>(k) - static_cast<double>(each_way));
        spreads[k] = std::log(usual) + away;
        const Rates rates(table, places, std::exp(spreads[k]), {});
        logs[k] =
            weight * rates.log_evidence(table, places) - 0.5 * away * away / (spread_log_sd * spread_log_sd);
    });
    const double most = *std::ranges::max_element(logs);
    double sum = 0.0, mean = 0.0;
    for (std::size_t i = 0; i < logs.size(); ++i) {
        const double share = std::exp(logs[i] - most);
        sum += share;
        mean += share * spreads[i];
    }
    return std::exp(mean / sum);
}

}  // namespace roostward::activity
