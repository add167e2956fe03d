#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "roostward/activity/ranges.hpp"
#include "roostward/core/parallel.hpp"

namespace roostward::activity {

/// What was counted at some places: a row a place, a column an evening.
struct CountTable {
    std::size_t evenings = 0;
    std::vector<double> counts;
    std::vector<double> hours;  ///< of watching that would have told it
    double one = 1.0;           ///< what one thing noted typically adds to `counts`
};

/// A rate per hour, the mean over evenings nobody saw: what is to be expected, and eight ranges in ten hold
/// it.
struct RateEstimate {
    double mean = 0.0;
    Range range;
};

/// By how much a true rate may differ from what counts could ever show, since places are told in the dusk and
/// smoothed: standard deviation of its logarithm, squared. On a flight line it is a matter of metres, of
/// which evenings tell more: `line` and, over the number of evenings, `line_one_evening` take the place of
/// `off_line` as the rate goes from 0 to twice the mean rate. Common practice, no source: set on invented
/// parks.
struct Unexplained {
    double off_line = 0.0;
    double line = 0.0;
    double line_one_evening = 0.0;
};

/// Rates of places from counts on evenings, by empirical Bayes. Given its rate, a place's counts are negative
/// binomial: evenings differ by a coefficient of variation. The rates of places are distributed as a gamma
/// distribution, of which the places tell how far it holds (nonparametric maximum likelihood after Laird
/// 1978, Journal of the American Statistical Association 73, with that gamma as pseudo-places). So a place
/// that looks good among many is not believed more than such places deserve (Efron 2011, same journal, 106),
/// and one that was watched once borrows what evenings differ by.
class Rates {
 public:
    /// Learns from the places `learn`, at most 1,000 of them, evenly taken. `evening_spread`: coefficient of
    /// variation of a rate from one evening to the next.
    Rates(const CountTable& table, std::span<const std::size_t> learn, double evening_spread,
          const Unexplained& unexplained);

    /// `evenings`: on so many the place was watched, at least 1 counts.
    [[nodiscard]] RateEstimate of(const CountTable& table, std::size_t place, std::size_t evenings) const;

    /// Logarithm of how likely the counts of these places are, whatever their rates, but for what hangs on
    /// neither rates nor spread.
    [[nodiscard]] double log_evidence(const CountTable& table, std::span<const std::size_t> places) const;

    static constexpr std::size_t rates = 64;
    using Shares = std::array<double, rates>;

 private:
    [[nodiscard]] Shares log_likelihood(const CountTable& table, std::size_t place) const;
    void learn_prior(const CountTable& table, std::span<const std::size_t> learn);

    double mean_ = 1.0;
    double size_ = 1.0;  ///< of the negative binomial: 1 / spread²
    Unexplained unexplained_;
    Shares log_prior_{};
};

/// The evenings' coefficient of variation as the places show it, leaning on the usual one: the posterior
/// mean of its logarithm under a log-normal about `usual` (0.5 wide) and the marginal likelihood, in which
/// all places together speak like eight, since a route is as busy for all of its trees. `usual` where no
/// place was watched twice. Common practice, no source.
[[nodiscard]] double evening_spread_of(const CountTable& table, std::span<const std::size_t> learn,
                                       double usual, core::Threads threads);

}  // namespace roostward::activity
