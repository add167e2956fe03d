#pragma once

#include "roostward/core/units.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::activity {

/// What chance alone does to the curvature of the flight density. Flights that come at random and in any
/// direction, at a constant rate of λ metres per m² and hour, give M a second derivative in any fixed
/// direction with mean 0 and variance λ Ē v (a compound Poisson process: Campbell's theorem).
class LineNoise {
 public:
    LineNoise(const survey::Survey& survey, core::Metres h);

    /// Standard deviation of λ's second derivative, 1/m² of λ's unit, where `hours` were watched, for λ =
    /// `rate`.
    [[nodiscard]] double deviation(double rate, double hours, core::Hours shrink) const;

 private:
    double variance_ = 0.0;  ///< v, per metre flown and m²: 1/m⁵
};

}  // namespace roostward::activity
