#include "line_noise.hpp"

#include <cmath>
#include <numbers>

#include "roostward/activity/kernel.hpp"

namespace roostward::activity {

namespace {

/// ∫ (∂²f/∂n²)² over the plane, the mean over n, for f the kernel's integral along a straight piece: the
/// double integral along the piece of 3/8 Δ²K_{√2h}, in closed form. Per m⁴.
double curvature_of_piece(double length, double h) {
    const double sigma = std::numbers::sqrt2 * h, u = length / sigma;
    const double straight = 3.0 * std::sqrt(0.5 * std::numbers::pi) * u * erf_of(u / std::numbers::sqrt2);
    return 3.0 / (8.0 * std::numbers::pi * std::pow(sigma, 4)) * (straight + u * u * exp_of(-0.5 * u * u));
}

/// The same for one metre at one place: the limit of short pieces, 3/(16πh⁶).
double curvature_of_point(double h) {
    return 3.0 / (16.0 * std::numbers::pi * std::pow(h, 6));
}

}  // namespace

LineNoise::LineNoise(const survey::Survey& survey, core::Metres h) {
    double metres = 0.0;
    for (const auto& flight : survey.flights) {
        if (!flight.placed) continue;
        const double width = std::hypot(h.value(), flight.accuracy.value());
        const double weight = flight.count * survey::laid_on_path(flight);
        const double curvature = flight.path.size() > 1
                                     ? curvature_of_piece(geo::length_of(flight.path).value(), width)
                                     : curvature_of_point(width);
        variance_ += weight * weight * curvature;
        metres += flight.metres();
    }
    if (metres > 0.0) variance_ /= metres;
}

double LineNoise::deviation(double rate, double hours, core::Hours shrink) const {
    return std::sqrt(rate * hours * variance_) / (hours + shrink.value());
}

}  // namespace roostward::activity
