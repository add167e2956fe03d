#include "roostward/activity/ranges.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>

namespace roostward::activity {

namespace {

constexpr double low_share = 0.1, high_share = 0.9;
/// Sums of weights are this far from what they should be at most.
constexpr double rounding = 1e-12;

bool weigh_the_same(const std::vector<Weighted>& sample) {
    return std::ranges::all_of(sample, [&](const Weighted& w) { return w.weight == sample.front().weight; });
}

/// Where the quantile of so many values that all weigh the same stands.
std::ptrdiff_t place_of(double share, std::size_t size) {
    const double place = std::ceil(share * static_cast<double>(size) - rounding) - 1.0;
    return static_cast<std::ptrdiff_t>(std::max(place, 0.0));
}

Range quantiles_of_equals(std::vector<Weighted>& sample) {
    const auto low = sample.begin() + place_of(low_share, sample.size()),
               high = sample.begin() + place_of(high_share, sample.size());
    std::ranges::nth_element(sample, low, {}, &Weighted::value);
    Range range{low->value, low->value};
    std::ranges::nth_element(low, high, sample.end(), {}, &Weighted::value);
    range.high = high->value;
    return range;
}

}  // namespace

Range middle_eight_tenths(std::vector<Weighted>& sample) {
    if (weigh_the_same(sample)) return quantiles_of_equals(sample);
    std::ranges::sort(sample, {}, &Weighted::value);
    const auto quantile = [&sample](double share) {
        double sum = 0.0;
        for (const Weighted& item : sample)
            if ((sum += item.weight) >= share - rounding) return item.value;
        return sample.back().value;
    };
    return {quantile(low_share), quantile(high_share)};
}

double stretch_for(std::size_t evenings) {
    const double z = boost::math::quantile(boost::math::normal(), high_share);
    const auto m = static_cast<double>(evenings);
    return boost::math::quantile(boost::math::students_t(m - 1.0), high_share) / z * std::sqrt(m / (m - 1.0));
}

Ranges::Ranges(std::size_t evenings) : stretch_(evenings + 1, 0.0) {
    for (std::size_t m = least_evenings_for_range; m <= evenings; ++m)
        stretch_[m] = stretch_for(m);
}

std::optional<Range> Ranges::of(double estimate, std::vector<Weighted>& redrawn, std::size_t evenings) const {
    if (evenings < least_evenings_for_range || redrawn.empty()) return std::nullopt;
    const Range middle = middle_eight_tenths(redrawn);
    const double below = std::max(0.0, estimate - middle.low), above = std::max(0.0, middle.high - estimate);
    return Range{std::max(0.0, estimate - stretch_[evenings] * below), estimate + stretch_[evenings] * above};
}

}  // namespace roostward::activity
