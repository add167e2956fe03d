#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace roostward::activity {

/// What an estimate might have been on other evenings like these: eight in ten times.
struct Range {
    double low = 0.0;
    double high = 0.0;
};

/// Fewer evenings than this give no range.
inline constexpr std::size_t least_evenings_for_range = 3;

/// Value and weight; the weights of a sample sum to 1.
struct Weighted {
    double value = 0.0;
    double weight = 0.0;
};

/// The smallest values with a cumulative weight of at least 0.1 and 0.9. Reorders the sample, which is not
/// empty.
[[nodiscard]] Range middle_eight_tenths(std::vector<Weighted>& sample);

/// How much wider than the re-drawn quantiles a range is where `evenings` ≥ 2 are behind it:
/// t₀.₉(m−1)/z₀.₉ · √(m/(m−1)), for the small sample and for the re-draw's own narrowness.
[[nodiscard]] double stretch_for(std::size_t evenings);

/// Ranges of estimates that share their re-draws.
class Ranges {
 public:
    /// `evenings`: the most that any estimate has behind it.
    explicit Ranges(std::size_t evenings);

    /// The re-drawn quantiles, stretched about the estimate, not below 0. Empty below three evenings.
    /// Reorders the sample.
    [[nodiscard]] std::optional<Range> of(double estimate, std::vector<Weighted>& redrawn,
                                          std::size_t evenings) const;

 private:
    std::vector<double> stretch_;
};

}  // namespace roostward::activity
