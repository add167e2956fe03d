#include "roostward/evenings/worth.hpp"

#include <cmath>
#include <numbers>

namespace roostward::evenings {

Belief belief_of(double mean, double deviation) {
    const double variance = deviation * deviation;
    return {mean * mean / variance, core::Hours(mean / variance)};
}

double foreseen_shift(const Belief& belief, core::Hours hours) {
    return std::sqrt(belief.variance() * (hours / (belief.b + hours)));
}

double worth_of_watching(const Belief& belief, core::Hours hours, double rival) {
    const double s = foreseen_shift(belief, hours);
    if (s <= 0.0) return 0.0;
    const double z = -std::fabs(belief.mean() - rival) / s;
    const double density = std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi);
    return s * (density + z * 0.5 * std::erfc(-z / std::numbers::sqrt2));
}

}  // namespace roostward::evenings
